"""The job file: its model, its reader, starters, and the schema."""
