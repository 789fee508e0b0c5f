"""What another server calls, such as gunicorn (partners/config/workers.py)."""

import os
from typing import Any

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "partners.config.settings")
application: Any = get_wsgi_application()

from django.conf import settings  # noqa: E402 -- needs to know which

from partners.config import caller, daily_copy  # noqa: E402 -- needs the settings

if settings.SERVED_SECURELY:
    application = caller.told_by_proxy(application, os.environ.get("PARTNER_BOOK_PROXY") or "127.0.0.1")
daily_copy.begin()
