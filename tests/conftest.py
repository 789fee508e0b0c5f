"""The cast for every test."""

from __future__ import annotations

from typing import Any

import pytest
from django.conf import settings
from django.contrib.auth import BACKEND_SESSION_KEY, HASH_SESSION_KEY, SESSION_KEY
from django.contrib.sessions.backends.db import SessionStore
from django.test import Client

from partners.program.desk import Desk
from partners.program.models import Membership, Program, Role
from tests import people


@pytest.fixture
def program(db: Any) -> Program:
    return people.make_program()


@pytest.fixture
def desk(program: Program) -> Desk:
    return people.make_desk(program)


@pytest.fixture
def june(program: Program) -> Membership:
    return people.make_member(program, "June")


@pytest.fixture
def omar(program: Program) -> Membership:
    return people.make_member(program, "Omar", Role.TEACHER)


@pytest.fixture
def grace(program: Program) -> Membership:
    return people.make_member(program, "Grace", Role.GUEST)


@pytest.fixture
def otto(db: Any) -> Membership:
    return people.make_member(people.make_program("Stone Quay Art"), "Otto")


@pytest.fixture
def signed_in(client: Client, june: Membership) -> Client:
    """June's browser with what a sign-in leaves in it, and without its questions: thousands of tests begin so."""
    user, session = june.user, SessionStore()
    session[SESSION_KEY], session[HASH_SESSION_KEY] = str(user.pk), user.get_session_auth_hash()
    session[BACKEND_SESSION_KEY] = "django.contrib.auth.backends.ModelBackend"
    session.save(must_create=True)
    client.cookies[settings.SESSION_COOKIE_NAME] = str(session.session_key)
    return client
