"""``python -m sitegen``."""

import sys

from sitegen.cli import main

sys.exit(main())
