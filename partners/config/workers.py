"""What gunicorn reads: `gunicorn -c python:partners.config.workers partners.config.wsgi`.

Its own options go over these. Workers know nothing of each other: who is signed in, tries to sign in, forms that were
sent and what can be undone are all in the database. So there may be any number, on any number of machines that share
PARTNER_BOOK_DATABASE and the secret key.
"""

from __future__ import annotations

import os

from partners.config import environment

bind = "127.0.0.1:8000"
workers = 2
# A request waits for the database most of its time. Each thread keeps one connection open.
threads = 4
# A long list is written while its page is sent.
timeout = 120
graceful_timeout = 30
# Whom to believe about TLS; who calls is read from the same proxy in partners/config/caller.py.
forwarded_allow_ips = os.environ.get("PARTNER_BOOK_PROXY") or "127.0.0.1"
if environment.log_is_json():
    _theirs = {"level": "INFO", "handlers": ["json"], "propagate": False}
    logconfig_dict = environment.logging() | {"loggers": {"gunicorn.error": _theirs, "gunicorn.access": _theirs}}
