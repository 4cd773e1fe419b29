"""`python -m guidegen` does the same as `guidegen`."""

import sys

from guidegen.cli import main

sys.exit(main())
