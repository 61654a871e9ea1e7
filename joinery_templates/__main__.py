"""``python -m joinery_templates`` does what ``joinery-templates`` does."""

import sys

if __name__ == "__main__":
    if not sys.flags.safe_path:
        del sys.path[0]  # the current folder, whose files are nobody's business here
    from joinery_templates.cli import main

    main()
