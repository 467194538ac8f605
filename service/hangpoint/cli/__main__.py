"""``python -m hangpoint.cli`` is the command ``hangpoint``."""

from hangpoint.cli import main

if __name__ == "__main__":
    main()
