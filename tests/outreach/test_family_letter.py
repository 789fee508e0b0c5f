"""The letter home, its slip and its sister sheets, as families, the principal and the copier get them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pypdfium2  # type: ignore[import-untyped]
import pytest

from outreach.documents import family_letter, letter_approval, letter_copies
from outreach.documents.family_letter import Facts, Thing
from outreach.documents.letter_copies import Copies
from outreach.wording.dates import spelled
from outreach.wording.family import SLIP_LINES, WORDS, other_slip, presses
from outreach.wording.household_es import with_note
from outreach.wording.readability import long_sentences
from outreach.wording.readability_es import QUITE_EASY, score
from tests.outreach.sheets import LONG_PERSON, LONG_SCHOOL, SCHOOL, Printed

PAIRS = (
    ("egg cartons (paper ones)", "cartones de huevos (de papel)"), ("paper towel tubes", "tubos de toallas de papel"),
    ("yarn", "estambre"), ("buttons", "botones"), ("yogurt cups", "vasos de yogur"), ("magazines", "revistas"),
    ("cardboard boxes", "cajas de cartón"), ("cloth scraps", "retazos de tela"),
    ("old shirts for smocks", "camisas viejas para usar de delantal"), ("bottle caps", "tapas de botellas"),
)  # fmt: skip
HOME = Facts(
    language="en",
    paper="letter",
    letterhead=SCHOOL,
    day=date(2026, 8, 24),
    teacher="June Castellanos",
    role="art teacher",
    phone="(201) 555-0123",
    email="june.castellanos@example.org",
    things=tuple(Thing(*pair) for pair in PAIRS),
    cannot_use=(Thing("glass jars (they break)", "frascos de vidrio (se rompen)"),),
    drop_off="the box by the office door",
    drop_off_es="la caja junto a la puerta de la oficina",
    first=date(2026, 9, 1),
    last=date(2026, 9, 25),
    return_by=date(2026, 9, 11),
    approved_by="Maria Ortega",
)
LONGEST = replace(
    HOME,
    letterhead=LONG_SCHOOL,
    teacher=LONG_PERSON,
    own="This fall all our classes make hand puppets. " * 9,
    own_es="Este otoño todas nuestras clases hacen títeres. " * 9,
    things=tuple(Thing(f"{english}, clean and dry", f"{spanish}, limpios y secos") for english, spanish in PAIRS),
)
SLIP = "\n".join(["Ma rabtaa inaad caawiso?", *(f"erey {number}" for number in range(17)), "Soo celi {day}."])
SOMALI = replace(
    HOME,
    other_language="Soomaali",
    other_translator="Hodan Warsame, district translator",
    other_text="Waalidiinta sharafta leh,\n\nWax kasta waa la bixiyaa.",
    other_slip=SLIP,
    other_holds_promise=True,
)


def letter(facts):
    return Printed(family_letter.draw(facts))


def codes(facts):
    return [gap.code for gap in family_letter.gaps(facts)]


def cut_lines(pdf):
    """How high over the lower edge each page is cut: the lowest line that runs across nearly the whole sheet."""
    heights = []
    for page in pypdfium2.PdfDocument(pdf):
        bounds = [item.get_bounds() for item in page.get_objects() if item.type == 2]
        heights.append(round(min(low for left, low, right, _top in bounds if right - left > page.get_width() - 60), 1))
    return heights


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize(
    "facts",
    [HOME, Facts("en", "letter", SCHOOL, date(2026, 8, 24), ""), replace(HOME, own="Nothing is provided.", own_es="—")],
    ids=["full", "empty", "own words"],
)
def test_the_promise_stands_in_every_letter_whatever_is_written(facts, language):
    page = letter(facts).pages[0 if language == "en" else 1]
    words = WORDS[language]
    for sentence in (words.provided, words.nothing_to_send, words.no_one_knows, words.only_clean, words.cannot_use):
        assert sentence in page


def test_no_word_of_the_teachers_can_take_a_fixed_sentence_out():
    """The fixed sentences are no field of the facts at all."""
    fixed = {WORDS["en"].promise, WORDS["es"].promise}
    assert not {str(value) for value in vars(HOME).values()} & fixed
    assert {"provided", "promise", "nothing_to_send"} & set(Facts.__dataclass_fields__) == set()


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("facts", [HOME, LONGEST], ids=["usual", "longest"])
def test_each_language_is_one_side_and_its_slip_is_cut_where_the_other_is(facts, paper):
    pdf = family_letter.draw(replace(facts, paper=paper))
    assert len(Printed(pdf).pages) == 2
    front, back = cut_lines(pdf)
    assert front == back
    assert front > 150


def test_behind_a_slip_stands_only_the_slip_of_the_other_language():
    for page, language in zip(letter(HOME).pages, ("en", "es"), strict=True):
        words = WORDS[language]
        before, _heading, behind = page.partition(words.slip.heading)
        assert words.thanks in before
        assert all(part in behind for part in (words.slip.name, words.slip.room, words.slip.rules))
        assert words.where not in behind


def test_the_slip_asks_nothing_of_a_child_but_the_class():
    asked = [getattr(WORDS["en"].slip, name) for name in SLIP_LINES]
    assert [words for words in asked if "child" in words] == ["Your child’s class or room"]


def test_a_letter_without_approval_is_a_draft_on_every_side():
    draft = letter(replace(HOME, approved_by=""))
    assert ["DRAFT" in draft.pages[0], "BORRADOR" in draft.pages[1]] == [True, True]
    assert "DRAFT" not in letter(HOME).text
    assert [gap.stops for gap in family_letter.gaps(replace(HOME, approved_by="")) if gap.code == "not-approved"] == [
        True
    ]


def test_the_fixed_sentences_are_easy_and_short_in_both_languages():
    texts = family_letter.read_texts(HOME)
    assert long_sentences(texts["en"]) == []
    assert long_sentences(texts["es"]) == []
    assert (score(texts["es"]) or 0) > QUITE_EASY
    assert "hard" not in codes(HOME)


def test_hard_words_of_the_teachers_are_told():
    own = (
        "The interdisciplinary curriculum incorporates repurposed materials necessitating extraordinary organization. "
    )
    assert "hard" in codes(replace(HOME, own=own * 3, own_es="Sí."))


def test_what_is_missing_is_told_before_printing():
    bare = Facts("en", "letter", SCHOOL, date(2026, 8, 24), "June", approved_by="Maria Ortega")
    assert codes(bare) == ["no-things", "no-cannot-use", "no-drop-off", "no-days", "no-return-by"]
    assert codes(HOME) == []
    assert codes(replace(HOME, things=(Thing("yarn"),), own="We weave.")) == ["no-spanish", "no-spanish-text"]
    assert codes(replace(HOME, drop_off="the blue bin", drop_off_es="")) == ["no-spanish-place"]


def test_what_a_thing_must_be_like_stands_on_the_spanish_side_too_at_least_in_english():
    assert with_note("Egg cartons", "no food residue") == "cartones de huevos (sin restos de comida)"
    assert with_note("yarn", "any color, at least 10 yards") == "estambre (any color, at least 10 yards)"
    assert (with_note("yarn", ""), with_note("harps", "clean")) == ("estambre", "")
    mixed = Thing("yarn (10 yards)", with_note("yarn", "10 yards"), "10 yards")
    assert codes(replace(HOME, things=(mixed,))) == ["no-spanish"]


@pytest.mark.parametrize(
    "own",
    [
        "Each family should send two boxes.", "Tissues are required.", "You must bring yarn.", "Our goal is 300 tubes.",
        "There is a prize for the class.", "Cada familia debe traer lana.", "Es obligatorio.", "Tiene que enviar lana.",
        "The class that sends most gets extra credit.", "Please send at least 5 jars.",
    ],
)  # fmt: skip
def test_words_that_press_families_are_stopped(own):
    assert [gap.code for gap in family_letter.gaps(replace(HOME, own=own, own_es="Sí.")) if gap.stops] == ["presses"]


@pytest.mark.parametrize(
    "own",
    ["You do not have to send anything.", "Nothing is required.", "No tiene que traer nada.", "No es obligatorio.",
     "Nobody has to help.", "This fall we make puppets."],
)  # fmt: skip
def test_words_that_free_families_pass(own):
    assert presses(own) == ""


def test_a_third_page_carries_the_translators_text_its_slip_and_who_translated():
    page = letter(SOMALI).pages[2]
    assert "Wax kasta waa la bixiyaa." in page
    assert "Hodan Warsame" in page
    assert "Soo celi 9/11/2026." in page
    assert cut_lines(family_letter.draw(SOMALI))[2] > 150
    assert codes(SOMALI) == []


@pytest.mark.parametrize("text", ["أعزائي أولياء الأمور", "亲爱的家长们", "প্রিয় পরিবার", "Уважаемые семьи і १"])
def test_a_script_that_the_font_lacks_is_told_and_no_half_page_is_printed(text):
    facts = replace(SOMALI, other_text=text)
    assert len(letter(facts).pages) == 2
    assert [gap.code for gap in family_letter.gaps(facts) if gap.stops] == ["other-signs"]


@pytest.mark.parametrize(
    ("lacks", "code"),
    [({"other_translator": ""}, "no-translator"), ({"other_holds_promise": False}, "other-promise")],
)
def test_a_translation_needs_its_translator_and_the_promise(lacks, code):
    assert [gap.code for gap in family_letter.gaps(replace(SOMALI, **lacks)) if gap.stops] == [code]


def test_a_slip_in_another_language_has_a_line_for_each_word():
    assert other_slip(SLIP + "\n\n") is not None
    assert other_slip("one\ntwo") is None
    assert "other-slip" in codes(replace(SOMALI, other_slip="one\ntwo"))


APPROVAL = letter_approval.Facts(replace(HOME, approved_by=""), "Maria Ortega", 326, 14)


def test_the_principal_reads_what_is_said_asked_and_why():
    sheet = Printed(letter_approval.draw(APPROVAL))
    assert len(sheet.pages) == 1
    for words in (WORDS["en"].promise, "egg cartons", "326 students in 14 classes", "Signature", "until", "glass jars"):
        assert words in sheet.text


def test_the_principal_reads_by_when_to_sign_as_long_as_there_is_time():
    day = date(2026, 9, 1)
    assert HOME.first == day
    early, late = (replace(HOME, day=day - timedelta(n)) for n in (1, 0))
    told = [Printed(letter_approval.draw(replace(APPROVAL, letter=letter))).text for letter in (early, late)]
    assert [f"{spelled(day, 'en')}, when the collecting begins" in text for text in told] == [True, False]


@pytest.mark.parametrize(
    ("day", "told"),
    [
        (date(2026, 8, 20), f"{spelled(date(2026, 8, 25), 'en')}, 5 school days before"),
        (date(2026, 8, 26), "today, if you can: 5 school days before the collecting begins was"),
    ],
)
def test_the_principal_reads_the_day_that_leaves_the_time_their_procedure_wants(day, told):
    asked = replace(APPROVAL, letter=replace(HOME, day=day), days_ahead=5, sign_by=date(2026, 8, 25))
    assert told in Printed(letter_approval.draw(asked)).text


def test_the_duty_to_use_their_language_is_cited_by_statute_and_not_by_the_withdrawn_letter():
    text = Printed(letter_approval.draw(APPROVAL)).text
    for statute in ("1116(e)(5)", "20 U.S.C. 6318(e)(5)", "42 U.S.C. 2000d", "20 U.S.C. 1703(f)"):
        assert statute in text
    assert "2015" not in text
    assert "Dear Colleague" not in text


CLASSES = (Copies("K-A", 22, 2), Copies("3-Birch", 25, 2), Copies("new", 0, 2))


def test_copies_are_students_and_spare_ones_and_none_for_a_class_without_students():
    facts = letter_copies.Facts("en", "letter", SCHOOL, date(2026, 8, 24), CLASSES, pages=3)
    assert [one.count for one in facts.classes] == [24, 27, 0]
    assert (facts.total, facts.leaves) == (51, 2)
    text = Printed(letter_copies.draw(facts)).text
    assert "51 letters, 102 sheets of paper" in text
    assert "27 copies (25 + 2 spare)" in text
    assert "no students are entered" in text


def test_forty_classes_go_on_properly_on_a_second_page():
    many = tuple(Copies(f"room {number}", 24, 2) for number in range(60))
    sheet = Printed(letter_copies.draw(letter_copies.Facts("en", "a4", LONG_SCHOOL, date(2026, 8, 24), many)))
    assert len(sheet.pages) >= 2
    assert all(f"room {number}" in sheet.text for number in range(60))


def test_days_that_are_past_are_said_before_it_is_printed():
    late = replace(HOME, day=date(2026, 9, 12))
    assert codes(late) == ["return-by-past"]
    assert codes(replace(late, day=date(2026, 9, 26))) == ["return-by-past", "days-past"]
    assert codes(replace(HOME, day=date(2026, 9, 11))) == []


def test_a_translated_slip_has_its_day_in_figures_and_braces_of_its_own():
    """Before, a brace that stood for nothing ended the page, and the day stood there in English."""
    page = letter(replace(SOMALI, other_slip=SLIP.replace("{day}", "{day} {fasal} {"))).pages[2]
    assert "Soo celi 9/11/2026 {fasal} {" in page
