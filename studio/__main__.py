"""`python -m studio`."""

from studio.cli import main

if __name__ == "__main__":
    main()
