"""The one settings file. Every variable it reads begins with PARTNER_BOOK_ and has a working default."""

from __future__ import annotations

import os

from csp.constants import NONE, SELF

from partners.config import environment

BASE_DIR = environment.CHECKOUT
DATA_DIR = environment.data_folder()

SECRET_KEY = environment.secret_key(DATA_DIR)
DEBUG = environment.flag("PARTNER_BOOK_DEBUG", False)
PUBLIC_HOSTS = environment.names("PARTNER_BOOK_HOSTS")
ALLOWED_HOSTS = ["localhost", "127.0.0.1", "[::1]", *PUBLIC_HOSTS]
CSRF_TRUSTED_ORIGINS = [f"https://{host.lstrip('.')}" for host in PUBLIC_HOSTS]

INSTALLED_APPS = [
    "whitenoise.runserver_nostatic",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.humanize",
    "django.contrib.messages",
    "django.contrib.sessions",
    "django.contrib.staticfiles",
    "django.forms",
    "axes",
    "csp",
    "django_filters",
    "django_htmx",
    "django_tables2",
    "partners",
    "outreach",
]

MIDDLEWARE = [
    "partners.config.logs.RequestLog",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "partners.ground.answers.EveryAnswer",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "partners.program.middleware.DeskMiddleware",
    "axes.middleware.AxesMiddleware",
    "partners.ground.dots.DotsStay",
]

ROOT_URLCONF = "partners.config.urls"
WSGI_APPLICATION = "partners.config.wsgi.application"
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
FORM_RENDERER = "partners.ground.form_renderer.Renderer"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [BASE_DIR / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "builtins": [
                "partners.ground.tags",
                "partners.program.tags",
                "partners.directory.tags",
                "partners.helpers.tags",
                "partners.funding.tags",
                "partners.agenda.tags",
            ],
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
                "partners.program.bar.bar",
            ],
        },
    },
]

DATABASES = {"default": environment.database(DATA_DIR)}

COPIES_KEPT = environment.number("PARTNER_BOOK_KEEP_COPIES", 10)
COPIES_KEPT_DAYS = environment.number("PARTNER_BOOK_KEEP_DAYS", 30)

AUTH_USER_MODEL = "partners.User"
AUTHENTICATION_BACKENDS = ["axes.backends.AxesStandaloneBackend", "django.contrib.auth.backends.ModelBackend"]
PASSWORD_HASHERS = [
    "django.contrib.auth.hashers.Argon2PasswordHasher",
    "django.contrib.auth.hashers.PBKDF2PasswordHasher",
]
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": f"django.contrib.auth.password_validation.{name}"}
    for name in ("UserAttributeSimilarityValidator", "MinimumLengthValidator", "CommonPasswordValidator")
]
LOGIN_URL = "program:sign-in"
LOGIN_REDIRECT_URL = "agenda:today"
AXES_FAILURE_LIMIT = 8
AXES_COOLOFF_TIME = 0.25
AXES_LOCKOUT_PARAMETERS = [["username", "ip_address"]]
AXES_LOCKOUT_TEMPLATE = "program/locked_out.html"
AXES_RESET_ON_SUCCESS = True
AXES_VERBOSE = False

# What draws a sheet that is left somewhere: the record keeps it as it was printed, and knows only this name.
SHEET_AS_PRINTED = "outreach.printed.as_printed"

MAIL = environment.mail_server()
EMAIL_HOST, EMAIL_PORT, EMAIL_HOST_USER, EMAIL_HOST_PASSWORD, EMAIL_USE_TLS, EMAIL_USE_SSL = MAIL
EMAIL_TIMEOUT = 10

LANGUAGE_CODE = "en-us"
# The screens are in English; a letter carries its own language.
LANGUAGES = [("en-us", "English")]
LOCALE_PATHS = [BASE_DIR / "partners" / "locale"]
TIME_ZONE = os.environ.get("PARTNER_BOOK_TIME_ZONE", "America/New_York")
USE_I18N = True
FORMAT_MODULE_PATH = "partners.config.formats"
USE_TZ = True

STATIC_URL = "static/"
STATIC_ROOT = DATA_DIR / "static"
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = DEBUG
WHITENOISE_MIMETYPES = {".webmanifest": "application/manifest+json"}
MESSAGE_STORAGE = "django.contrib.messages.storage.session.SessionStorage"

DATA_UPLOAD_MAX_MEMORY_SIZE = 10 * 1024 * 1024
DATA_UPLOAD_MAX_NUMBER_FIELDS = 3000

LOGGING = environment.logging()

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": [SELF],
        "img-src": [SELF, "data:"],
        "object-src": [NONE],
        "base-uri": [NONE],
        "form-action": [SELF],
        "frame-src": [NONE],
        "frame-ancestors": [NONE],
    },
}
X_FRAME_OPTIONS = "DENY"
SECURE_REFERRER_POLICY = "same-origin"
SESSION_COOKIE_HTTPONLY = True
# A device that its person named stays signed in for weeks (partners/program/devices.py); any other for the day.
SESSION_EXPIRE_AT_BROWSER_CLOSE = True
SESSION_COOKIE_AGE = 12 * 60 * 60
SESSION_COOKIE_SAMESITE = "Lax"

# Served beyond this machine, the site is reached through a proxy that speaks TLS; then nothing goes out in clear.
SERVED_SECURELY = environment.flag("PARTNER_BOOK_SECURE", bool(PUBLIC_HOSTS))
SESSION_COOKIE_SECURE = CSRF_COOKIE_SECURE = SECURE_SSL_REDIRECT = SERVED_SECURELY
# What watches over the site asks from within, where no TLS is.
SECURE_REDIRECT_EXEMPT = [r"^health/$"]
SECURE_HSTS_SECONDS = 31_536_000 if SERVED_SECURELY else 0
SECURE_HSTS_INCLUDE_SUBDOMAINS = SECURE_HSTS_PRELOAD = SERVED_SECURELY
if SERVED_SECURELY:
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
