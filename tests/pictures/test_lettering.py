from __future__ import annotations

import io

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont
from pypdf import PdfReader

from bot.pictures.lettering import UNKNOWN, Weight, font_file, lettered
from bot.pictures.paper import Paper, PaperSize

# Source: Unicode CLDR 44, exemplar characters (main and auxiliary as far as they are letters) of these languages.
ALPHABETS = {
    "Polish": "aąbcćdeęfghijklłmnńoóprsśtuwyzźż",
    "Czech": "aábcčdďeéěfghiíjklmnňoópqrřsštťuúůvwxyýzž",
    "Turkish": "abcçdefgğhıiİjklmnoöprsştuüvyz",
    "Vietnamese": "aàảãáạăằẳẵắặâầẩẫấậbcdđeèẻẽéẹêềểễếệghiìỉĩíịklmnoòỏõóọôồổỗốộơờởỡớợpqrstuùủũúụưừửữứựvxyỳỷỹýỵ",
    "Greek": "αάβγδεέζηήθιίϊΐκλμνξοόπρσςτυύϋΰφχψωώ",
    "Russian": "абвгдеёжзийклмнопрстуфхцчшщъыьэюя",
    "Ukrainian": "абвгґдеєжзиіїйклмнопрстуфхцчшщьюя",
    "Serbian": "абвгдђежзијклљмнњопрстћуфхцчџш",
}


@pytest.mark.parametrize("language", ALPHABETS)
@pytest.mark.parametrize("weight", list(Weight))
def test_no_letter_of_these_languages_is_drawn_as_a_box(language: str, weight: Weight) -> None:
    font = ImageFont.truetype(font_file(weight), 36)
    box = bytes(font.getmask("\U0010fffd"))

    boxes = [letter for letter in ALPHABETS[language] + ALPHABETS[language].upper() if bytes(font.getmask(letter)) == box]
    assert boxes == []
    assert lettered(ALPHABETS[language]) == ALPHABETS[language]


@pytest.mark.parametrize("title", ["Zażółć gęślą jaźń", "Φροντιστήριο", "Щётки и цепи", "Ngày mai"])
def test_a_printed_page_says_the_title_in_its_own_letters(title: str) -> None:
    paper = Paper(PaperSize.A4, "titles")
    for number, weight in enumerate(Weight):
        paper.text(50, 100 + 30 * number, title, 12, weight)

    said = PdfReader(io.BytesIO(paper.content())).pages[0].extract_text()
    assert said.count(title) == len(Weight)


def test_letters_in_two_parts_are_put_together() -> None:
    assert lettered("cafe\N{COMBINING ACUTE ACCENT}") == "café"


def test_what_the_letters_lack_is_left_out_and_never_all_of_it() -> None:
    assert lettered("dentist \N{TOOTH} 9:00") == "dentist 9:00"
    assert lettered("\N{TOOTH}\N{TOOTH}") == UNKNOWN
    assert lettered("") == ""


@given(st.text(max_size=40))
def test_every_text_becomes_one_line_that_is_lettered_already(text: str) -> None:
    line = lettered(text)

    assert "\n" not in line
    assert lettered(line) == line
