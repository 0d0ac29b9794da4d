"""The workshop sheets of a phase."""

from __future__ import annotations

from tests.sites import Surveyed
from tests.web.conftest import Desk


def test_sheets_tell_what_is_cut_drilled_and_bought(surveyed: Surveyed, desk: Desk) -> None:
    """Of the phase that is asked for alone; a share for mistakes that is no number is told."""
    cut = {"parts": [["stave", 710, 95, 3, "along"]], "stock_length_mm": 2300, "stock_width_mm": 210, "kerf_mm": 3}
    fitting = surveyed.fitting(phase="2, autumn", **cut)
    surveyed.fixing(fitting, size="M5 × 45")
    surveyed.fitting(mark="D8", name="Sign", phase="3")
    page = f"/site/{surveyed.site}/workshop"
    told = desk.get(page).text
    for words in ("stave", "Cutting plan", "M5 × 45", "2, autumn"):
        assert words in told
    assert "Sign" not in told
    assert "Sign" in desk.get(f"{page}?phase=3").text
    assert desk.get(f"{page}?spare=some").status_code == 422


PLAN = "stands_on=2027-09-06&hours_a_day=8&delivery=5&cut_h=8&make_h=4&coat_h=2&dry=1&fit_h=6"


def test_plan_goes_back_from_the_day_through_each_coat(surveyed: Surveyed, desk: Desk) -> None:
    """Hand count: fit on Friday 3, coats on 1 and 30 August, put together 27, cut 26, order five days before."""
    book, site = surveyed.book, surveyed.site
    finish = book.write("finish", {"site": site, "mark": "P1", "name": "Green", "sort": "oil paint"})
    for number in (1, 2):
        surveyed.fitting(mark=f"D{number}", finishes=[finish], x_mm=1200 * number)
    page = f"/site/{site}/workshop?{PLAN}"
    assert "Coats of P1" in desk.get(page).text  # not entered: no plan, rather than one without drying
    book.write("finish", {"coats": 2}, finish)
    late = desk.get(page.replace("2027", "2021")).text
    assert late.count("(already past)") == 6
    told = desk.get(page).text
    plan = told[told.index('id="plan"') :]
    assert "already past" not in plan
    days = [
        "21\u00a0August",
        "26\u00a0August",
        "27\u00a0August",
        "30\u00a0August",
        "1\u00a0September",
        "3\u00a0September",
    ]
    places = [plan.index(f">{day} 2027<") for day in days]
    assert places == sorted(places)
    both = desk.get(f"{page}&first_on=2027-08-23&first_lot=1").text
    assert "First lot, 1 of 2" in both
    assert "The rest, 1 of 2" in both
    assert desk.get(f"{page}&first_on=2027-08-23").text.count("Fittings in the first lot") > 1
    assert desk.get(page.replace("hours_a_day=8", "hours_a_day=80")).status_code == 422


def test_costs_stand_against_the_budget(surveyed: Surveyed, desk: Desk) -> None:
    """What is expected and paid, and by how much the budget falls short."""
    book, site = surveyed.book, surveyed.site
    book.write("site", {"budget": 300, "currency": "EUR"}, site)
    rail = surveyed.fitting()
    cost = {"site": site, "fitting": rail, "what": "boards", "sort": "material", "currency": "EUR"}
    book.write("cost", cost | {"amount": 280, "state": "expected"})
    book.write("cost", cost | {"amount": 57.5, "state": "paid"})
    assert "short by 37.50" in desk.get(f"/site/{site}/workshop").text


def test_shopping_list_is_held_against_the_budget(surveyed: Surveyed, desk: Desk) -> None:
    """One length of 2400 at 14.60 and no price for the clamp: of 50 with 40 paid it is short by 4.60, or more."""
    book, site = surveyed.book, surveyed.site
    prices = [["oak slat", 2400, None, 14.6], ["oak slat", 1000, None, 13]]
    book.write("site", {"budget": 50, "currency": "EUR", "prices": prices}, site)
    rail = surveyed.fitting(cut_from="oak slat", kerf_mm=2, parts=[["slat", 780, None, 2, "along"]])
    surveyed.fixing(rail, size="M6")
    cost = {"site": site, "what": "hire", "sort": "hire", "currency": "EUR", "amount": 40, "state": "paid"}
    book.write("cost", cost)
    told = " ".join(desk.get(f"/site/{site}/workshop").text.split())
    assert "Together EUR 14.60</strong>, without the price of clamp, M6." in told
    assert "short by 4.60</strong>, or more." in told
    assert "To buy, 14.60; no plan can cost less than" in told
    assert "<td>836</td>" in told  # 2400 less two slats and two saw cuts
    assert "length, to buy" in told
