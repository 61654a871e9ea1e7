"""``python -m joinery_templates`` does what ``joinery-templates`` does."""

from joinery_templates.cli import main

if __name__ == "__main__":
    main()
