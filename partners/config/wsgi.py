"""What a server calls."""

import os

from django.core.wsgi import get_wsgi_application

os.environ.setdefault("DJANGO_SETTINGS_MODULE", "partners.config.settings")
application = get_wsgi_application()

from partners.config import daily_copy  # noqa: E402 -- needs the settings

daily_copy.begin()
