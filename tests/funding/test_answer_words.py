"""What applications always ask, answered from the record; sums done by hand."""

from __future__ import annotations

import pytest

from partners.funding.answer_words import first_answers, need_words, part_words
from partners.school.models import SchoolClass
from partners.wish_list.models import Need
from tests.people import make_school


@pytest.mark.parametrize(
    ("things", "said"),
    [
        ([("clay", 36_000)], "as much of clay as it pays for. All of it comes to $360.00."),
        # By hand: 360.00, then 360.00 + 98.00 = 458.00, then 458.00 + 142.00 = 600.00.
        (
            [("clay", 36_000), ("tools", 9_800), ("glaze", 14_200)],
            "with $360.00 we would buy clay, with $458.00 also tools and with $600.00 also glaze.",
        ),
    ],
)
def test_a_part_of_it_is_used_in_the_order_of_the_lines(things, said):
    assert part_words(things).endswith(said)


@pytest.mark.parametrize(
    ("ready", "kept"),
    [
        ("This year our students need 10 clay bags.", ""),
        ("This year our students need 10 clay bags. Ours ran out in May.", " Ours ran out in May."),
        ("Our kiln is old.", " Our kiln is old."),
    ],
)
def test_what_an_application_needs_is_its_own_lines_and_what_was_written_besides_stays(ready, kept):
    said = "This grant would give our students: a press; ink, water-based (6)."
    assert need_words([("a press", 1), ("ink, water-based", 6)], ready) == said + kept


@pytest.mark.django_db
def test_the_record_answers_the_usual_questions(desk):
    program = desk.program
    for school, students in ((make_school(program), 21), (make_school(program, "North Ridge Elementary"), 24)):
        SchoolClass.objects.create(program=program, school=school, label="3-A", grade=3, students=students)
    Need.objects.create(program=program, what="clay bags", quantity=10, pack_size=4, pack_cents=2_500)
    Need.objects.create(program=program, what="egg cartons", quantity=40, household=True)
    who, numbers, need, part = [one.words for one in first_answers(desk)]
    assert "Millrace Elementary and North Ridge Elementary" in who
    assert numbers == "We reach 45 students in 2 classes at 2 schools, grade 3."
    assert need == "This year our students need 10 clay bags."
    # Ten are three packs of four, 25.00 each.
    assert part.endswith("All of it comes to $75.00.")


@pytest.mark.django_db
def test_an_empty_book_says_what_to_fill_in(desk):
    words = [one.words for one in first_answers(desk)]
    assert [one.partition(":")[0] for one in words[1:3]] == ["Fill in", "Fill in"]
    assert all(words)
