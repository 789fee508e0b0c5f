"""Guards of signing in, of sessions and of what each may do."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import AbstractUser
from django.core.cache import cache
from django.core.exceptions import ValidationError
from django.core.signing import Signer
from django.test import Client
from django.urls import reverse

from partners.ground.forms import RowForm
from partners.program.models import Membership, Role
from tests import people
from tests.attack.guard import FOREIGN, OWN, Site, guard, patched, set_to

LIMIT = 3


def guess(site: Site, client: Client, times: int, **more: Any) -> Any:
    site.settings.AXES_FAILURE_LIMIT = LIMIT
    site.quick_passwords()
    for number in range(times):
        said = {name: value.format(number) for name, value in more.items()}
        answer = site.sign_in(client, "june", "wrong", **said)
    return answer


@guard("Who guesses a password is held up", "6.3, 2.4", set_to(AXES_ENABLED=False))
def _(site: Site) -> None:
    client = site.browser()
    assert guess(site, client, LIMIT).status_code == 429
    assert site.sign_in(client, "june").status_code == 429
    assert "_auth_user_id" not in client.session


def believes(request: Any) -> str:
    return str(request.META.get("HTTP_X_FORWARDED_FOR") or request.META["REMOTE_ADDR"])


@guard(
    "Who guesses is held up also when naming another address each time (X-Forwarded-For)",
    "6.3, 4.1",
    set_to(AXES_CLIENT_IP_CALLABLE=believes),
)
def _(site: Site) -> None:
    assert guess(site, site.browser(), LIMIT, HTTP_X_FORWARDED_FOR="198.51.100.{}").status_code == 429


def no_work_for_strangers(site: Site) -> None:
    site.patch.setattr(AbstractUser, "set_password", lambda *_args: None)


@guard("An unknown name takes as long as a known one", "6.3", no_work_for_strangers)
def _(site: Site) -> None:
    """Counted, not timed: both work out one hash of the password."""
    from django.contrib.auth.hashers import MD5PasswordHasher

    site.quick_passwords()
    worked: list[str] = []
    encode = MD5PasswordHasher.encode

    def counted(hasher: Any, password: str, salt: str) -> str:
        worked.append(password)
        return str(encode(hasher, password, salt))

    site.patch.setattr(MD5PasswordHasher, "encode", counted)
    said = []
    for name in ("june", "nobody-here"):
        worked.clear()
        answer = site.sign_in(site.browser(), name, "wrong")
        said.append((len(worked), answer.status_code, answer.content.decode().count("correct username and password")))
    assert said[0] == said[1]


@guard(
    "A session that somebody planted is not the one signed in (fixation)",
    "7.2",
    patched("django.contrib.sessions.backends.base.SessionBase.cycle_key", lambda _self: None),
)
def _(site: Site) -> None:
    site.quick_passwords()
    client = site.browser()
    session = client.session
    session["planted"] = True
    session.save()
    planted = session.session_key
    assert site.sign_in(client, "june").status_code == 302
    assert client.session.session_key != planted


def one_hash_for_all(site: Site) -> None:
    site.patch.setattr(AbstractUser, "get_session_auth_hash", lambda _self: "x")


@guard("A new password ends every other session", "7.4", one_hash_for_all)
def _(site: Site) -> None:
    thief = site.browser(site.june)
    assert thief.get("/").status_code == 200
    site.quick_passwords()
    assert thief.get("/").status_code == 302


@guard(
    "Signing out ends the session on the server",
    "7.4",
    patched("django.contrib.sessions.backends.base.SessionBase.flush", lambda _self: None),
)
def _(site: Site) -> None:
    client = site.browser(site.june)
    key = str(client.session.session_key)
    client.post(reverse("program:sign-out"))
    client.cookies["sessionid"] = key
    assert client.get("/").status_code == 302


@guard(
    "No script reads the session's cookie, no other site sends it",
    "3.3",
    set_to(SESSION_COOKIE_HTTPONLY=False, SESSION_COOKIE_SAMESITE=None),
)
def _(site: Site) -> None:
    site.quick_passwords()
    cookie = site.sign_in(site.browser(), "june").cookies["sessionid"]
    assert cookie["httponly"]
    assert cookie["samesite"] == "Lax"


@guard(
    "Passwords are stored as Argon2 hashes",
    "11.4",
    lambda site: set_to(PASSWORD_HASHERS=site.settings.PASSWORD_HASHERS[::-1])(site),
)
def _(site: Site) -> None:
    from django.contrib.auth.hashers import get_hasher

    assert get_hasher().algorithm == "argon2"


@guard("A password that everybody tries first is refused", "6.2", set_to(AUTH_PASSWORD_VALIDATORS=[]))
def _(site: Site) -> None:
    from django.contrib.auth.password_validation import validate_password

    for word in ("password1", "12345678", "june", "short"):
        try:
            validate_password(word, site.june.user)
        except ValidationError:
            continue
        raise AssertionError(word)


@guard(
    "A calendar address cannot be made up (signed)",
    "9.1",
    patched(
        "outreach.feeds.secret_address._SIGNER",
        type("Believes", (Signer,), {"unsign": lambda _self, said: said.partition(".")[0]})(),
    ),
)
def _(site: Site) -> None:
    Membership.objects.filter(pk=site.june.pk).update(calendar_turn=1)
    cache.clear()
    for end in ("made-up", "", "A" * 43):
        place = reverse("outreach:calendar-feed", args=[f"{site.june.pk}-1.{end}"])
        assert site.browser().get(place).status_code == 404


@guard(
    "Who guesses calendar addresses is held up", "2.4", patched("outreach.calendar_views.too_often", lambda _key: False)
)
def _(site: Site) -> None:
    cache.clear()
    client = site.browser()
    place = reverse("outreach:calendar-feed", args=["1-1.made-up"])
    forged = [client.get(place, headers={"X-Forwarded-For": f"198.51.100.{number}"}) for number in range(21)]
    cache.clear()
    assert forged[0].status_code == 404
    assert forged[-1].status_code == 429


@guard("A guest writes nothing", "8.3", patched("partners.program.desk.Desk.writes", True))
def _(site: Site) -> None:
    site.book()
    Membership.objects.filter(pk=site.grace.pk).update(opened=["today", "wish_list"])
    answer = site.browser(site.grace).post(reverse("wish_list:need-edit", args=[OWN]), {"what": "wool"})
    assert answer.status_code == 403


@guard("A teacher keeps neither members nor settings", "8.3", patched("partners.program.desk.Desk.keeps", True))
def _(site: Site) -> None:
    omar = people.make_member(site.june.program, "Omar", Role.TEACHER)
    assert site.browser(omar).get(reverse("program:member-list")).status_code == 403


@guard(
    "Who teaches at one school sees no other",
    "8.2",
    patched("partners.program.desk.Desk.narrowed", lambda _self, rows: rows),
)
def _(site: Site) -> None:
    site.book()
    mine = people.make_school(site.june.program, "Mine")
    lena = people.make_member(site.june.program, "Lena", Role.TEACHER, school_ids=[mine.pk])
    assert site.browser(lena).get(f"/schools/{OWN}/").status_code == 404


def takes_all(site: Site) -> None:
    taken = RowForm.values

    def values(form: Any) -> dict[str, Any]:
        own = {field.attname for field in form.instance._meta.concrete_fields} - {"id", "version"}
        return {**taken(form), **{name: form.data[name] for name in own & set(form.data)}}

    site.patch.setattr(RowForm, "values", values)


@guard("What a form does not ask is not taken from it (mass assignment)", "15.3", takes_all)
def _(site: Site) -> None:
    """More fields than the form has: the row's own columns, with what an ill-wisher would like to stand there."""
    site.book()
    member = site.june.program.memberships.get(pk=OWN)
    more = {
        "user_id": site.otto.user_id,
        "calendar_turn": 9,
        "version": 77,
        "id": FOREIGN,
        "created_by_id": site.otto.user_id,
    }
    sent = {"role": "guest", "opened": ["today"], "seen": member.version, **more}
    site.browser(site.june).post(reverse("program:member-edit", args=[OWN]), sent)
    after = site.june.program.memberships.get(pk=OWN)
    assert after.role == "guest"
    assert (after.user_id, after.calendar_turn, after.created_by_id) == (
        member.user_id,
        member.calendar_turn,
        member.created_by_id,
    )
    assert after.version == member.version + 1


@guard("Who guesses invitation links is held up", "2.4", set_to(AXES_ENABLED=False))
def _(site: Site) -> None:
    site.settings.AXES_FAILURE_LIMIT = LIMIT
    place = reverse("program:join-link", args=["made-up"])
    said = [site.browser().get(place, headers={"X-Forwarded-For": f"198.51.100.{turn}"}) for turn in range(LIMIT + 1)]
    assert said[0].status_code < 429
    assert said[-1].status_code == 429
