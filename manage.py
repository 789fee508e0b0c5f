#!/usr/bin/env python3
"""Starts, tests and looks after Partner Book: `python3 manage.py start`.

Written so that any Python, however old, gets as far as the sentence below.
"""

import sys

if sys.version_info < (3, 11):
    sys.exit(
        "Partner Book needs Python 3.11 or newer, and this is Python %d.%d: install a newer one from python.org, "
        "then run the same command with it, for example `python3.12 manage.py start`." % sys.version_info[:2]
    )

from partners.config import first_run

if __name__ == "__main__":
    sys.exit(first_run.run(sys.argv))
