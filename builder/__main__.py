"""`python -m builder` is the command `shankbook`."""

from builder.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
