"""What of a web address tells whose it is."""

from __future__ import annotations

from urllib.parse import urlsplit

# Hosts where every shop has only a page: the host alone says nothing about the shop.
_SHARED_HOSTS = """
facebook.com m.facebook.com instagram.com linkedin.com tiktok.com twitter.com x.com youtube.com etsy.com
yelp.com sites.google.com maps.google.com google.com maps.app.goo.gl linktr.ee
"""
_SHARED = frozenset(_SHARED_HOSTS.split())


def web_key(url: str) -> str:
    """The host without `www.`; for hosts shared by many, with the page behind it; "" where there is no host.

    `https://www.example.org/shop?x=1` → `example.org`. Hosts in other scripts are compared in their ASCII form.
    """
    typed = url.strip()
    try:
        parts = urlsplit(typed if "//" in typed else f"//{typed}")
        host = (parts.hostname or "").rstrip(".").removeprefix("www.")
        host = host.encode("idna").decode("ascii") if not host.isascii() else host
    except (ValueError, UnicodeError):
        return ""
    if "." not in host or any(sign.isspace() for sign in host):
        return ""
    if host in _SHARED:
        page = parts.path.strip("/").lower()
        return f"{host}/{page}" if page else ""
    return host
