"""Teachers who write into a book over HTTP, note what they were told, and send again what was never answered."""

from __future__ import annotations

import http.client
import random
import re
import threading
import time
from collections import Counter
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlencode

UNDO = re.compile(r"/changes/(\d+)/undo/")
PROMISE = re.compile(r"/promises/(\d+)/")
WROTE = re.compile(r"/(visits|gifts)/\d+/")
MESSAGE = re.compile(r'<div class="message (\w+)">\s*<p>(.*?)</p>', re.DOTALL)
AGAIN = "That was saved already, once."
TOKEN = "c" * 32  # What a page would hand out; it is both in the cookie and in the form.


@dataclass
class Sent:
    """One form: where it goes, what it says, and what its sender was told."""

    mark: str
    path: str
    data: dict[str, Any]
    told: str = ""  # "", "saved" or "refused"


@dataclass
class Notes:
    """What all writers know together."""

    sent: dict[str, Sent] = field(default_factory=dict)
    undoable: list[str] = field(default_factory=list)
    promises: list[str] = field(default_factory=list)
    statuses: Counter[int] = field(default_factory=Counter)
    pages: list[str] = field(default_factory=list)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def marks(self, told: str) -> list[str]:
        return [sent.mark for sent in list(self.sent.values()) if sent.told == told]


class Writer(threading.Thread):
    """One teacher at work until `stop`; a server that is gone ends the work."""

    def __init__(self, number: int, port: int, made: dict[str, Any], notes: Notes, seed: int) -> None:
        super().__init__(daemon=True)
        self.number, self.port, self.made, self.notes = number, port, made, notes
        self.random = random.Random(f"{seed}-{number}")
        self.stop = threading.Event()
        self.line: http.client.HTTPConnection | None = None
        self.again: list[Sent] = []
        self.patient = False
        self.serial = 0

    def run(self) -> None:
        while not self.stop.is_set():
            try:
                self.turn()
            except (OSError, http.client.HTTPException):
                self.close()
                if not self.patient:
                    return
                time.sleep(0.05)
        self.close()

    def close(self) -> None:
        if self.line is not None:
            self.line.close()
        self.line = None

    def turn(self) -> None:
        """Something that was never answered goes first; else something new."""
        if self.again:
            self.send(self.again[-1])
            if self.again[-1].told:
                self.again.pop()
            else:
                time.sleep(0.05)
            return
        sent = self.new()
        if self.patient:
            self.again.append(sent)
        if sent.path.endswith("/new/") and self.random.random() < 0.1:
            self.twice(sent)
        self.send(sent)
        if self.patient and sent.told:
            self.again.remove(sent)

    def new(self) -> Sent:
        kinds = [self.visit] * 9 + [self.arrival] * 5
        kinds += [self.undoing] * 3 * bool(self.notes.undoable) + [self.settling] * 3 * bool(self.notes.promises)
        self.serial += 1
        mark = f"mark-{self.number}-{time.time_ns()}-{self.serial}"
        path, data = self.random.choice(kinds)(mark)
        sent = Sent(mark, path, {**data, "once": mark, "csrfmiddlewaretoken": TOKEN})
        with self.notes.lock:
            self.notes.sent[mark] = sent
        return sent

    def visit(self, mark: str) -> tuple[str, dict[str, Any]]:
        happened = self.random.choice(["hello", "yes", "yes", "some", "maybe", "no", "away"])
        said = {"partner_pk": self.random.choice(self.made["places"]), "happened": happened, "note": mark}
        more = {"what": "yarn", "quantity": 20, "part": 5} if happened in ("yes", "some", "maybe") else {}
        return "/visits/new/", said | more

    def arrival(self, mark: str) -> tuple[str, dict[str, Any]]:
        place = self.random.choice(self.made["places"])
        line = {"line-0-description": mark, "line-0-quantity": "5"}
        return "/gifts/new/", {
            "source": "partner", "partner_pk": place, "form": "goods", "day": self.made["day"], **line
        }  # fmt: skip

    def undoing(self, mark: str) -> tuple[str, dict[str, Any]]:
        return f"/changes/{self.random.choice(self.notes.undoable)}/undo/", {}

    def settling(self, mark: str) -> tuple[str, dict[str, Any]]:
        act = self.random.choice(["that-was-all", "never-came"])
        return f"/promises/{self.random.choice(self.notes.promises)}/{act}/", {}

    def twice(self, sent: Sent) -> None:
        """A double tap: the same form on a second line, whose answer nobody waits for."""
        other = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        other.request("POST", sent.path, urlencode(sent.data), self.headers())
        threading.Thread(target=self.forget, args=(other,), daemon=True).start()

    def forget(self, other: http.client.HTTPConnection) -> None:
        try:
            self.notes.statuses[other.getresponse().status] += 1
        except (OSError, http.client.HTTPException):
            return
        finally:
            other.close()

    def send(self, sent: Sent) -> None:
        """Sends the form and reads what the answer says; a redirect whose page never comes is no answer to a person."""
        status, place, page = self.ask("POST", sent.path, urlencode(sent.data))
        if status == 302:
            if WROTE.fullmatch(place) and sent.path.endswith("/new/"):
                sent.told = "saved"
                if self.random.random() < 0.6:
                    return
            status, _, page = self.ask("GET", place)
            sent.told = sent.told or last_message(page)
            with self.notes.lock:
                self.notes.undoable += UNDO.findall(page)[:1]
                self.notes.promises += PROMISE.findall(page)[:1]
        elif status < 500:
            sent.told = "refused"

    def ask(self, method: str, path: str, body: str | None = None) -> tuple[int, str, str]:
        if self.line is None:
            self.line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        self.line.request(method, path, body, self.headers())
        answer = self.line.getresponse()
        page = answer.read().decode()
        with self.notes.lock:
            self.notes.statuses[answer.status] += 1
            if answer.status >= 500:
                self.notes.pages.append(page)
        return answer.status, answer.headers.get("Location", ""), page

    def headers(self) -> dict[str, str]:
        session = self.made["sessions"][self.number % len(self.made["sessions"])]
        form = "application/x-www-form-urlencoded"
        return {"Cookie": f"sessionid={session}; csrftoken={TOKEN}", "Content-Type": form}


def last_message(page: str) -> str:
    """What the newest message on a page means for the form that was sent before it."""
    messages = MESSAGE.findall(page)
    kind, words = messages[-1] if messages else ("", "")
    return "saved" if kind == "success" or AGAIN in words else "refused"
