"""The printed class page: one A4 page for a class of 24, nothing cut off, no text taken for markup."""

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from tests.day import this_day
from tracker.exchange.class_page import ClassPage, PageCell, PageRow, class_page


def page_of(rows=24, columns=4, load="102.5 kg", detail="25 + 15 + 1.25", name="Maximiliana"):
    cells = (
        PageCell(load, detail),
        PageCell("", "○ no 3RM: by feel, leave 3"),
        *(PageCell(load, detail),) * (columns - 2),
    )
    heads = tuple(
        ("front squat, barbell" if n < 3 else "press, dumbbells", "3 × 4 at 82 % of 3RM") for n in range(columns)
    )
    people = tuple(PageRow(f"{name} {n}", "▲ speak first", cells) for n in range(rows))
    return ClassPage(
        "Squat and press", "Wed 25 Nov 2026 · Lanternmill", heads, people, ("Below each load: the discs.",) * 6
    )


@pytest.fixture
def browser(chromium):
    return chromium


def printed(browser, page):
    return printed_text(browser, class_page(page))


def printed_text(browser, html):
    tab = browser.new_page()
    tab.set_content(html)
    pdf = tab.pdf(prefer_css_page_size=True)
    tab.emulate_media(media="print")
    cut = tab.evaluate("[...document.querySelectorAll('td, th')].filter(e => e.scrollWidth > e.clientWidth + 1).length")
    type_px = tab.evaluate("parseFloat(getComputedStyle(document.querySelector('td b')).fontSize)")
    tab.close()
    return pdf, cut, type_px


def pages_of(pdf):
    """Pages of a PDF, and the sizes of their media boxes in points."""
    boxes = {tuple(map(float, found.split())) for found in re.findall(rb"/MediaBox\s*\[([^\]]*)\]", pdf)}
    return len(re.findall(rb"/Type\s*/Page\b", pdf)), boxes


@pytest.mark.browser
@pytest.mark.parametrize(("rows", "columns"), [(24, 4), (24, 2), (24, 7), (10, 8), (6, 3), (1, 2), (30, 5)])
def test_a_class_fits_one_a4_page_with_nothing_cut_off(browser, rows, columns):
    pdf, cut, type_px = printed(browser, page_of(rows, columns))
    number, boxes = pages_of(pdf)
    assert (number, cut) == (1, 0)
    width, height = next(iter(boxes))[2:]
    # ISO 216: A4 is 210 x 297 mm, 595.3 x 841.9 points.
    assert sorted((width, height)) == pytest.approx([595.3, 841.9], abs=1)
    assert type_px >= 10 * 96 / 72  # 10 points can be read from a rack


@pytest.mark.browser
def test_fewer_members_get_larger_type_and_many_go_on_to_a_second_page(browser):
    small, large = printed(browser, page_of(24))[2], printed(browser, page_of(8))[2]
    assert large > small
    assert pages_of(printed(browser, page_of(60))[0])[0] == 2


@pytest.mark.browser
def test_the_pieces_of_the_session_stand_below_and_it_is_still_one_page(browser):
    words = "as many reps as possible in 12:00: 3, then 3 more each round; kettlebell swing, 16 kg, kettlebell; box step-over, 50 cm high; push-up"
    page = replace(page_of(24), pieces=(("Lantern ladder", words), ("Mill wheel", words)))
    pdf, cut, type_px = printed(browser, page)
    assert (pages_of(pdf)[0], cut) == (1, 0)
    assert type_px >= 10 * 96 / 72


@pytest.mark.browser
def test_long_names_and_loads_shrink_the_type_and_stay_whole(browser):
    page = page_of(
        24, load="2 × 112.25 kg", detail="25 + 25 + 10 + 5 + 2.5 + 1.25", name="Maximiliana Wendeltraud of the Mill"
    )
    pdf, cut, _ = printed(browser, page)
    assert (pages_of(pdf)[0], cut) == (1, 0)


@pytest.mark.browser
@pytest.mark.parametrize("wide", [390, 794])
@pytest.mark.parametrize(("rows", "columns"), [(2, 3), (24, 4), (10, 8), (1, 2)])
def test_on_a_screen_of_any_width_no_load_or_disc_is_cut(browser, wide, rows, columns):
    """A disc of 1.25 kg that is cut reads 1.2: the table keeps the width its type was made for, and is moved sideways."""
    tab = browser.new_page(viewport={"width": wide, "height": 844})
    tab.set_content(class_page(page_of(rows, columns, load="67.5 kg", detail="20 + 2.5 + 1.25")))
    cut = "[...document.querySelectorAll('td, th, header')].filter(e => e.scrollWidth > e.clientWidth + 1).map(e => e.innerText)"
    assert tab.evaluate(cut) == []
    tab.close()


@pytest.mark.browser
def test_a_class_of_24_out_of_a_log_prints_on_one_page(browser, log):

    from tests.desk.many import class_of, gym
    from tracker.desk.coach.class_print import print_sheet
    from tracker.desk.coach.class_sheet import class_sheet

    step, members = class_of(log)
    sheet = class_sheet(log, step.id, [each.id for each in members], this_day(), place_id=gym(log).id)
    pdf, cut, type_px = printed_text(browser, print_sheet(sheet))
    assert (len(sheet.rows), pages_of(pdf)[0], cut) == (24, 1, 0)
    assert type_px >= 12.9 * 96 / 72  # 13 points: what 24 rows and four lines leave


def smallest_type(browser, html):
    """The smallest type in points in which anything stands on the printed page."""
    tab = browser.new_page()
    tab.set_content(html)
    tab.emulate_media(media="print")
    found = tab.evaluate(
        "(() => { const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT); const all = []; let n;"
        " while ((n = walk.nextNode())) if (n.data.trim()) all.push(parseFloat(getComputedStyle(n.parentElement).fontSize));"
        " return Math.min(...all); })()"
    )
    tab.close()
    return found * 72 / 96


@pytest.mark.browser
@pytest.mark.parametrize("rows", [1, 24, 33, 40])
@pytest.mark.parametrize("columns", [2, 5, 8])
def test_up_to_40_members_take_two_pages_at_most_in_type_of_at_least_eight_points(browser, rows, columns):
    """Eight points are common practice for the smallest print that is read at arm's length."""
    page = page_of(rows, columns)
    page = replace(
        page,
        rows=tuple(replace(row, bar=1 + place // 2) for place, row in enumerate(page.rows)),
        said=("Warm-up: 4 min easy row, then 10 air squats", "2 rounds, empty bar: 5 good mornings, 5 front squats"),
        notes=(("Pause at the bottom", "Or front squat, dumbbells, twice the repetitions"), ("Or push-up",)),
        pieces=(
            ("Mill wheel", "3 rounds for time: 10 wall ball shot, 9 kg (or goblet squat; or 20 air squat); 5 burpee"),
        ),
        closing=("Cool-down: walk 5 min",),
    )
    html = class_page(page)
    pdf, cut, _ = printed_text(browser, html)
    assert pages_of(pdf)[0] <= 2
    assert cut == 0
    assert smallest_type(browser, html) >= 8


@pytest.mark.browser
def test_a_class_of_40_out_of_a_log_prints_on_two_pages_by_who_shares_a_bar(browser, log):
    from tests.desk.many import NAMES, class_of, gym
    from tracker.desk.coach.class_print import page_of as page_of_sheet
    from tracker.desk.coach.class_print import print_sheet
    from tracker.desk.coach.class_sheet import class_sheet

    names = (*NAMES, *(f"{name} II" for name in NAMES[:16]))
    step, members = class_of(log, names)
    sheet = class_sheet(log, step.id, [each.id for each in members], this_day(), place_id=gym(log).id)
    html = print_sheet(sheet)
    pdf, cut, _ = printed_text(browser, html)
    assert (len(sheet.rows), pages_of(pdf)[0], cut) == (40, 2, 0)
    assert smallest_type(browser, html) >= 8
    bars = [row.bar for row in page_of_sheet(sheet).rows]
    assert bars == sorted(bars, key=lambda bar: bar or 99)  # those who share stand together
    at = {row.name: row.bar for row in page_of_sheet(sheet).rows}
    shared = [pair for pair in sheet.partners if pair.lift == "front squat, barbell"]
    assert shared
    assert all(at[pair.first] == at[pair.second] > 0 for pair in shared)


class Tags(HTMLParser):
    def __init__(self):
        super().__init__()
        self.seen, self.words = [], []

    def handle_starttag(self, tag, attrs):
        self.seen.append((tag, dict(attrs)))

    def handle_data(self, data):
        self.words.append(data)


def test_text_is_never_markup_and_nothing_is_fetched():
    evil = '<script>alert(1)</script> & "co"'
    page = ClassPage(
        evil,
        evil,
        ((evil, evil),),
        (PageRow(evil, evil, (PageCell(evil, evil, evil, evil),)),),
        (evil,),
        ((evil, evil),),
    )
    tags = Tags()
    tags.feed(class_page(page))
    assert {tag for tag, _ in tags.seen}.isdisjoint({"script", "img", "link", "iframe"})
    assert not any(key in ("src", "href") for _, attrs in tags.seen for key in attrs)
    assert sum(evil in each for each in tags.words) >= 11
    assert "url(" not in class_page(page)
    assert "@import" not in class_page(page)
