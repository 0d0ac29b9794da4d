"""Several at once: new ones by the row, a field set for all, a fitting put up in one act; all or nothing."""

from __future__ import annotations

import re
from html import unescape

from tests.sites import Surveyed
from tests.web.conftest import Desk, messages, shown


def test_rows_are_entered_with_what_they_have_in_common(surveyed: Surveyed, desk: Desk) -> None:
    """Marks go on, a pasted block is read, and the page leads back to the face."""
    fitting = surveyed.fitting()
    page = f"/site/{surveyed.site}/several/fixing?fitting={fitting}"
    form = shown(desk.get(page).text) | {
        "sort": "clamp", "contact_radius_mm": "12", "hole": "none", "fabric": "old fabric", "trace": "none",
        "columns": ["mark", "x_mm", "z_mm"], "rows": "\t1100\t1540\n\t1300\t\"\nD1.9;1500;1540",
    }  # fmt: skip
    answer = desk.post(page, form)
    assert (answer.status_code, answer.location) == (303, f"/face/{surveyed.face}")
    found = [(one["mark"], one["x_mm"], one["z_mm"], one["face"]) for one in surveyed.book.items("fixing")]
    assert found == [
        ("D1.1", 1100, 1540, surveyed.face),
        ("D1.2", 1300, 1540, surveyed.face),
        ("D1.9", 1500, 1540, surveyed.face),
    ]


def test_what_follows_from_the_rest_need_not_be_typed(surveyed: Surveyed, desk: Desk) -> None:
    """The unit of what was read, row by row and by itself."""
    page = f"/site/{surveyed.site}/several/reading?face={surveyed.face}"
    form = shown(desk.get(page).text) | {"at": "2026-03-02T09:00+00:00", "columns": ["quantity", "value"]}
    assert desk.post(page, form | {"rows": "illuminance; 45\nair temperature; 11.5"}).status_code == 303
    alone = f"/site/{surveyed.site}/new/reading?face={surveyed.face}"
    form = shown(desk.get(alone).text) | {"at": "2026-03-02T09:10+00:00", "quantity": "torque", "value": "8"}
    assert desk.post(alone, form).status_code == 303
    assert [one["unit"] for one in surveyed.book.items("reading")] == ["lx", "°C", "N m"]


def test_rows_begin_like_another_and_keep_their_columns(surveyed: Surveyed, desk: Desk) -> None:
    """What it hands on stands in common; of several that hand on the same the latest is offered."""
    fitting = surveyed.fitting()
    for number in (1, 2):
        surveyed.fixing(fitting, mark=f"D1.{number}", x_mm=1100 + 20 * number, size="M6 × 35")
    page = f"/site/{surveyed.site}/several/fixing?fitting={fitting}&columns=x_mm"
    before, _, _ = desk.get(page).text.partition('class="entry"')
    offered = re.findall(r'<option value="([0-9a-f-]{36})"[^>]*>(D1\.\d)', before)
    assert [mark for _, mark in offered] == ["D1.2"]
    begun = shown(desk.get(f"{page}&like={offered[0][0]}").text)
    assert (begun["size"], begun["columns"], begun["fitting"]) == ("M6 × 35", ["x_mm"], fitting)
    assert not begun["fitted_x_mm"]


def test_one_wrong_row_lets_none_in(surveyed: Surveyed, desk: Desk) -> None:
    """It is named by its number, and all that was typed stays."""
    page = f"/site/{surveyed.site}/several/hold?face={surveyed.face}"
    form = shown(desk.get(page).text) | {"sort": "hook", "may_be_used": "yes", "columns": ["x_mm", "z_mm"]}
    before = surveyed.book.revision()
    answer = desk.post(page, form | {"rows": "100; 200\n9999; 200"})
    assert answer.status_code == 422
    assert messages(answer)["rows"].startswith("Row 2: x is 9999")
    assert shown(answer.text)["rows"] == "100; 200\n9999; 200"
    assert surveyed.book.revision() == before


def test_columns_are_chosen_and_what_was_typed_stays(surveyed: Surveyed, desk: Desk) -> None:
    """The button that shows other columns writes nothing."""
    page = f"/site/{surveyed.site}/several/hold?face={surveyed.face}"
    form = shown(desk.get(page).text)
    assert "may_be_used" in form["columns"]
    before = surveyed.book.revision()
    answer = desk.post(page, form | {"columns": ["x_mm", "z_mm", "depth_mm"], "said_by": "keeper", "show": "columns"})
    again = shown(answer.text)
    assert (again["columns"], again["said_by"]) == (["x_mm", "z_mm", "depth_mm"], "keeper")
    assert surveyed.book.revision() == before


def test_field_is_set_for_all_that_are_ticked(surveyed: Surveyed, desk: Desk) -> None:
    """What is left empty stays as it was; each has its own entry in its history."""
    fitting = surveyed.fitting()
    ticked = [surveyed.fixing(fitting, mark=f"D1.{number}", size="M6") for number in (1, 2)]
    other = surveyed.fixing(fitting, mark="D1.3")
    page = f"/site/{surveyed.site}/together?items={ticked[0]}&items={ticked[1]}"
    answer = desk.post(page, shown(desk.get(page).text) | {"material": "stainless steel", "items": ticked})
    assert answer.status_code == 303
    values = {one["id"]: (one["material"], one["size"]) for one in surveyed.book.items("fixing")}
    assert values == dict.fromkeys(ticked, ("stainless steel", "M6")) | {other: (None, None)}


def test_field_that_suits_one_of_them_alone_is_set_for_none(surveyed: Surveyed, desk: Desk) -> None:
    """The one that it does not suit is named."""
    fitting = surveyed.fitting()
    suits = surveyed.fixing(fitting, mark="D1.1", length_mm=60)
    short = surveyed.fixing(fitting, mark="D1.2", length_mm=20)
    page = f"/site/{surveyed.site}/together?items={suits}&items={short}"
    form = shown(desk.get(page).text) | {"items": [suits, short], "hole": "new", "penetration_mm": "40"}
    answer = desk.post(page, form | {"trace": "a new hole in old fabric"})
    assert answer.status_code == 422
    assert messages(answer)["penetration_mm"].startswith("D1.2: ")
    assert surveyed.book.item(suits)[1]["penetration_mm"] is None


def test_ticks_of_two_kinds_are_asked_about_and_none_is_told(surveyed: Surveyed, desk: Desk) -> None:
    """A way to each kind; with nothing ticked, what to do."""
    fitting = surveyed.fitting()
    fixing = surveyed.fixing(fitting)
    page = desk.get(f"/site/{surveyed.site}/together?items={fitting}&items={fixing}").text
    assert "1 fitting<" in page
    assert f"/site/{surveyed.site}/together?items={fixing}" in page
    assert desk.get(f"/site/{surveyed.site}/together").status_code == 422
    assert desk.get(f"/site/{surveyed.site}/fitted").status_code == 422


def test_fitting_goes_up_with_its_fixings_in_one_act(surveyed: Surveyed, desk: Desk) -> None:
    """Figures where they were measured, one word for the other places, who and when once."""
    fitting = surveyed.fitting()
    measured, other = (surveyed.fixing(fitting, mark=f"D1.{number}") for number in (1, 2))
    page = f"/site/{surveyed.site}/fitted?items={fitting}"
    form = shown(desk.get(page).text)
    assert form["items"] == [fitting, measured, other]
    sent = form | {"fitted_by": "fitter", "fitted_on": "2026-06-02", f"fitted_x_mm-{measured}": "1103"}
    answer = desk.post(page, sent)
    assert answer.status_code == 422
    assert "D1.2" in messages(answer)["fitted_place"]
    assert shown(answer.text)[f"fitted_x_mm-{measured}"] == "1103"
    sent |= {f"fitted_z_mm-{measured}": "1541", "fitted_place": "not measured"}
    assert desk.post(page, sent).status_code == 303
    states = [surveyed.book.item(one)[1] for one in (fitting, measured, other)]
    assert {one["state"] for one in states} == {"fitted"}
    assert {one["fitted_on"] for one in states} == {"2026-06-02"}
    assert [(one["fitted_x_mm"], one["fitted_place"], one["fitted_by"]) for one in states[1:]] == [
        (1103, None, "fitter"),
        (None, "not measured", "fitter"),
    ]


def test_both_figures_of_a_place_go_into_the_first_cell(surveyed: Surveyed, desk: Desk) -> None:
    """Parted by a space or a stroke, where nothing stands in the second; what could be one figure stays one."""
    fitting = surveyed.fitting()
    apart, stroke, one = (surveyed.fixing(fitting, mark=f"D1.{number}") for number in (1, 2, 3))
    page = f"/site/{surveyed.site}/fitted?items={fitting}"
    typed = {
        f"fitted_x_mm-{apart}": "1103 1536.5",
        f"fitted_x_mm-{stroke}": "940 / 1536",
        f"fitted_x_mm-{one}": "1 105",
    }
    answer = desk.post(page, shown(desk.get(page).text) | typed)
    assert answer.status_code == 422
    assert list(messages(answer)) == [f"fitted_z_mm-{one}"]
    form = shown(answer.text)
    assert (form[f"fitted_x_mm-{apart}"], form[f"fitted_z_mm-{apart}"]) == ("1103", "1536.5")
    assert desk.post(page, form | {f"fitted_z_mm-{one}": "1540"}).status_code == 303
    places = [surveyed.book.item(each)[1] for each in (apart, stroke, one)]
    assert [(at["fitted_x_mm"], at["fitted_z_mm"]) for at in places] == [(1103, 1536.5), (940, 1536), (1105, 1540)]


def test_places_of_a_whole_fitting_go_into_its_first_cell(surveyed: Surveyed, desk: Desk) -> None:
    """One after the other down the page, dashes for what was not measured; too many are refused where they stand."""
    fitting, other = surveyed.fitting(mark="D1"), surveyed.fitting(mark="D2")
    fixings = [surveyed.fixing(fitting, mark=f"D1.{number}") for number in (1, 2, 3)]
    last = surveyed.fixing(other, mark="D2.1")
    page = f"/site/{surveyed.site}/fitted?items={fitting}&items={other}"
    first = f"fitted_x_mm-{fixings[0]}"
    form = shown(desk.get(page).text) | {"fitted_place": "not measured"}
    answer = desk.post(page, form | {first: "1103 1536 / 1409 1537 / 1712 1535 / 90 40"})
    assert "4 places are given, for 3" in messages(answer)[first]
    assert shown(answer.text)[first] == "1103 1536 / 1409 1537 / 1712 1535 / 90 40"
    taken = {first: "1103 1536 / 1409 1537", f"fitted_x_mm-{fixings[1]}": "1410"}
    assert "for 1" in messages(desk.post(page, form | taken))[first]
    assert desk.post(page, form | {first: "1103 1536 / - - /1712 1535"}).status_code == 303
    places = [surveyed.book.item(one)[1] for one in (*fixings, last)]
    assert [(at["fitted_x_mm"], at["fitted_z_mm"], at["fitted_place"]) for at in places] == [
        (1103, 1536, None),
        (None, None, "not measured"),
        (1712, 1535, None),
        (None, None, "not measured"),
    ]


def test_x_and_z_go_into_one_input_and_one_cell(surveyed: Surveyed, desk: Desk) -> None:
    """Of one thing or of several; a figure that a step counts on is no pair, and what is refused comes back parted."""
    fitting = surveyed.fitting()
    page = f"/site/{surveyed.site}/new/fixing?fitting={fitting}"
    form = shown(desk.get(page).text) | {"sort": "clamp", "contact_radius_mm": "20", "hole": "none"}
    form |= {"fabric": "old fabric", "x_mm": "1200 1500 / 1510 1502"}
    answer = desk.post(page, form)
    assert (shown(answer.text)["x_mm"], shown(answer.text)["z_mm"]) == ("1200 / 1510", "1500 / 1502")
    assert list(messages(answer)) == ["trace"]
    assert desk.post(page, form | {"trace": "none"}).status_code == 303
    made = surveyed.book.items("fixing")
    assert [(one["x_mm"], one["z_mm"]) for one in made] == [(1200, 1500), (1510, 1502)]
    table = f"/site/{surveyed.site}/several/hold?face={surveyed.face}&columns=mark&columns=x_mm&columns=z_mm"
    sent = shown(desk.get(table).text) | {"sort": "hole", "may_be_used": "yes"}
    assert desk.post(table, sent | {"rows": "H1\t310; 40\nH2\t620;45\t\nH3\t930\t50"}).status_code == 303
    assert desk.post(table, sent | {"rows": "H4; 310 60 / 620 65"}).status_code == 303
    found = [(one["mark"], one["x_mm"], one["z_mm"]) for one in surveyed.book.items("hold")]
    assert found == [("H1", 310, 40), ("H2", 620, 45), ("H3", 930, 50), ("H4", 310, 60), ("H5", 620, 65)]
    answer = desk.post(table, sent | {"rows": "H6; 310 60 / 620 60", "step-z_mm": "5"})
    assert answer.status_code == 422
    assert desk.post(table, sent | {"rows": "H6; 310 60"}).status_code == 422  # a run, and z is lacking
    answer = desk.post(table, sent | {"rows": "H6; 310 60; 5; 7"})
    assert shown(answer.text)["rows"] == "H6; 310 60; 5; 7"


def test_all_columns_are_shown_at_once(surveyed: Surveyed, desk: Desk) -> None:
    """By a button of their own; what was typed stays, and an empty cell is what all have in common."""
    page = f"/site/{surveyed.site}/several/zone?face={surveyed.face}"
    form = shown(desk.get(page).text)
    assert form["columns"] == ["mark", "name", "outline"]
    wide = shown(desk.post(page, form | {"show": "all"}).text)
    assert {"face", "forbids", "margin_mm", "reason", "said_by", "said_on"} < set(wide["columns"])
    row = {
        "face": surveyed.face,
        "name": "Frieze",
        "outline": "rectangle 0 2000 900 120",
        "forbids": "contact",
        "margin_mm": "40",
        "reason": "Gilt",
    }
    rows = "; ".join(row.get(name, "") for name in wide["columns"])
    assert desk.post(page, wide | {"rows": rows}).status_code == 303
    (zone,) = surveyed.book.items("zone")
    assert (zone["face"], zone["mark"], zone["margin_mm"]) == (surveyed.face, None, 40)


def test_run_of_two_is_no_place(surveyed: Surveyed, desk: Desk) -> None:
    """Two figures of x are two things, before z is there and after."""
    fitting = surveyed.fitting()
    page = f"/site/{surveyed.site}/new/fixing?fitting={fitting}"
    form = shown(desk.get(page).text) | {"sort": "clamp", "contact_radius_mm": "20", "hole": "none", "trace": "none"}
    form |= {"fabric": "old fabric", "x_mm": "1200 1510"}
    answer = desk.post(page, form)
    assert list(messages(answer)) == ["z_mm"]
    assert shown(answer.text)["x_mm"] == "1200 1510"
    assert desk.post(page, form | {"z_mm": "1500"}).status_code == 303
    assert [(one["x_mm"], one["z_mm"]) for one in surveyed.book.items("fixing")] == [(1200, 1500), (1510, 1500)]


def test_one_form_leads_on_to_the_next(surveyed: Surveyed, desk: Desk) -> None:
    """From a table to the first of what was entered, from each to the next in order, and from the last to its page."""
    page = f"/site/{surveyed.site}/several/hold?face={surveyed.face}&columns=mark&columns=x_mm&columns=z_mm"
    rows = {"rows": "H12; 100; 200\nH3; 300; 200", "sort": "hook", "may_be_used": "yes", "then": "each"}
    answer = desk.post(page, shown(desk.get(page).text) | rows)
    assert answer.status_code == 303
    third, twelfth = (
        one["id"] for one in sorted(surveyed.book.items("hold"), key=lambda one: one["x_mm"], reverse=True)
    )
    assert answer.location == f"/item/{third}/change"
    form = desk.get(answer.location)
    assert "Save and go on to <bdi>H12" in form.text
    answer = desk.post(answer.location, shown(form.text) | {"condition": "rusted", "then": "next"})
    assert answer.location == f"/item/{twelfth}/change"
    assert surveyed.book.item(third)[1]["condition"] == "rusted"
    last = desk.get(answer.location).text
    assert "Save and go on" not in last
    assert desk.post(answer.location, shown(last) | {"then": "next"}).location != answer.location


def test_what_was_not_fitted_is_left_planned(surveyed: Surveyed, desk: Desk) -> None:
    """A tick is taken away beside it; a figure that is none is told beside its input, and nothing is written."""
    fitting = surveyed.fitting()
    fixing = surveyed.fixing(fitting)
    page = f"/site/{surveyed.site}/fitted?items={fitting}"
    form = shown(desk.get(page).text) | {f"fitted_x_mm-{fixing}": "far", "fitted_place": "not measured"}
    answer = desk.post(page, form)
    assert list(messages(answer)) == [f"fitted_x_mm-{fixing}"]
    assert desk.post(page, form | {"items": [fitting], f"fitted_x_mm-{fixing}": ""}).status_code == 303
    assert [surveyed.book.item(one)[1]["state"] for one in (fitting, fixing)] == ["fitted", "planned"]


def test_walls_of_what_is_no_room_are_none(surveyed: Surveyed, desk: Desk) -> None:
    """An address that names a face where a room belongs shows an empty table."""
    assert desk.get(f"/site/{surveyed.site}/several/face?walls=plan&room={surveyed.face}").status_code == 200


def test_walls_of_a_room_are_entered_from_its_plan(surveyed: Surveyed, desk: Desk) -> None:
    """In one act: their places come of the corners, their names are told."""
    plan = [[0, 0], [0, 3140], [5230, 3140], [5230, 0]]
    surveyed.book.write("room", {"plan": plan, "mark": "R7", "ceiling_mm": 2760}, surveyed.room)
    link = unescape(next(iter(re.findall(r'href="([^"]*walls=plan[^"]*)"', desk.get(f"/room/{surveyed.room}").text))))
    form = shown(desk.get(link).text)
    names = iter(("Shore wall", "Gable", "Yard wall", "Store wall"))
    rows = "\n".join(
        "; ".join([(cells := line.split("; "))[0], next(names), *cells[2:]]) for line in form["rows"].splitlines()
    )
    assert desk.post(link, form | {"rows": rows}).status_code == 303
    found = surveyed.book.items("face")[-4:]
    assert [(one["mark"], one["sort"], one["height_mm"], one["width_mm"]) for one in found] == [
        ("R7-A", "wall", 2760, 3140), ("R7-B", "wall", 2760, 5230), ("R7-C", "wall", 2760, 3140),
        ("R7-D", "wall", 2760, 5230),
    ]  # fmt: skip
    assert [one["bearing_deg"] for one in found] == [90, 0, -90, 180]
    assert "walls=plan" not in desk.get(f"/room/{surveyed.room}").text


def test_run_of_figures_in_a_form_is_a_thing_for_each(surveyed: Surveyed, desk: Desk) -> None:
    """What is one figure or a word holds for all, marks go on, and the page leads back to the face."""
    fitting = surveyed.fitting()
    page = f"/site/{surveyed.site}/new/fixing?fitting={fitting}"
    form = shown(desk.get(page).text) | {
        "sort": "clamp", "contact_radius_mm": "12", "hole": "none", "fabric": "old fabric", "trace": "none",
        "x_mm": "1100 1305 1510", "z_mm": "1540", "packers_mm": "- 4 6",
    }  # fmt: skip
    answer = desk.post(page, form)
    assert (answer.status_code, answer.location) == (303, f"/face/{surveyed.face}")
    found = [(one["mark"], one["x_mm"], one["z_mm"], one["packers_mm"]) for one in surveyed.book.items("fixing")]
    assert found == [("D1.1", 1100, 1540, None), ("D1.2", 1305, 1540, 4), ("D1.3", 1510, 1540, 6)]


def test_one_wrong_figure_of_a_run_lets_none_in(surveyed: Surveyed, desk: Desk) -> None:
    """It is told beside its input, which keeps the run as it was typed; so is a run that is too short."""
    page = f"/site/{surveyed.site}/new/hold?face={surveyed.face}"
    form = shown(desk.get(page).text) | {"sort": "hook", "may_be_used": "yes", "z_mm": "210"}
    before = surveyed.book.revision()
    answer = desk.post(page, form | {"x_mm": "100 200000 1300"})
    assert answer.status_code == 422
    assert "200000" in messages(answer)["x_mm"]
    assert shown(answer.text)["x_mm"] == "100 200000 1300"
    assert list(messages(desk.post(page, form | {"x_mm": "10 20 1300", "z_mm": "15 16"}))) == ["z_mm"]
    assert surveyed.book.revision() == before


def test_several_fittings_are_copies_and_no_run(surveyed: Surveyed, desk: Desk) -> None:
    """A run there is refused as what it is: no figure."""
    page = f"/site/{surveyed.site}/new/fitting?face={surveyed.face}"
    answer = desk.post(page, shown(desk.get(page).text) | {"x_mm": "100 1300"})
    assert "not a number" in messages(answer)["x_mm"]


def test_run_in_a_row_is_a_row_for_each(surveyed: Surveyed, desk: Desk) -> None:
    """What counts on goes on counting; where something is wrong, the rows stand as they are meant."""
    page = f"/site/{surveyed.site}/several/reading?face={surveyed.face}&columns=at&columns=value"
    form = shown(desk.get(page).text) | {"quantity": "illuminance", "step-at": "2 h"}
    assert desk.post(page, form | {"rows": "45 61 58; 2026-03-02T09:00+00:00"}).status_code == 303
    found = [(one["at"][11:13], one["value"]) for one in surveyed.book.items("reading")]
    assert found == [("09", 45), ("11", 61), ("13", 58)]
    wrong = desk.post(page, form | {"rows": "45 61 9999999; 2026-03-02T09:00+00:00"})
    assert messages(wrong)["rows"].startswith("Row 3:")
    assert shown(wrong.text)["rows"].splitlines()[1] == "61; "
    holds = f"/site/{surveyed.site}/several/hold?face={surveyed.face}&columns=x_mm&columns=z_mm"
    uneven = desk.post(holds, shown(desk.get(holds).text) | {"rows": "10; 20\n10 20 1300; 15 16"})
    assert messages(uneven)["rows"].startswith("Row 2:")


def test_more_rows_like_those_before_begin_with_columns_and_steps(surveyed: Surveyed, desk: Desk) -> None:
    """The button beside the one that saves leads to the same table, empty."""
    page = f"/site/{surveyed.site}/several/reading?face={surveyed.face}&columns=at&columns=value"
    form = shown(desk.get(page).text) | {"quantity": "illuminance", "instrument": "lux meter", "step-at": "2 h"}
    answer = desk.post(page, form | {"rows": "45 61; 2026-03-02T09:00+00:00", "then": "another"})
    again = shown(desk.get(answer.location).text)
    assert again["columns"] == ["value", "at"]
    assert [again[name] for name in ("step-at", "instrument", "face", "rows")] == [
        "2 h", "lux meter", surveyed.face, "",
    ]  # fmt: skip


def test_fixing_in_a_hole_that_is_there_sits_where_it_is(surveyed: Surveyed, desk: Desk) -> None:
    """Its column is offered where there are holes; a place that is given stays."""
    fitting = surveyed.fitting()
    for mark, x in (("H1", 1120), ("H2", 1475)):
        surveyed.book.write("hold", {
            "face": surveyed.face, "mark": mark, "sort": "hole", "x_mm": x, "z_mm": 1530, "may_be_used": "yes",
        })  # fmt: skip
    page = f"/site/{surveyed.site}/several/fixing?fitting={fitting}"
    form = shown(desk.get(page).text)
    assert form["columns"] == ["mark", "x_mm", "z_mm", "hold"]
    form |= {"sort": "bolt", "contact_radius_mm": "12", "hole": "existing", "fabric": "old fabric"}
    form |= {"trace": "an old hole used again", "rows": "; ; ; H1\n; 1480; 1530; H2"}
    assert desk.post(page, form).status_code == 303
    alone = f"/site/{surveyed.site}/new/fixing?fitting={fitting}"
    hold = surveyed.book.items("hold")[0]["id"]
    single = {
        name: text for name, text in form.items() if name in ("sort", "contact_radius_mm", "hole", "fabric", "trace")
    }
    assert desk.post(alone, shown(desk.get(alone).text) | single | {"hold": hold}).status_code == 303
    assert [(one["x_mm"], one["z_mm"]) for one in surveyed.book.items("fixing")] == [
        (1120, 1530), (1480, 1530), (1120, 1530),
    ]  # fmt: skip


def test_fitting_leads_on_to_its_fixings(surveyed: Surveyed, desk: Desk) -> None:
    """The form of a fixing comes next, with the fitting and its face chosen."""
    page = f"/site/{surveyed.site}/new/fitting?face={surveyed.face}"
    form = shown(desk.get(page).text) | {"name": "Shelf", "x_mm": "100", "z_mm": "900"}
    answer = desk.post(page, form | {"width_mm": "640", "height_mm": "35", "then": "fixings"})
    begun = shown(desk.get(answer.location).text)
    assert (begun["fitting"], begun["face"]) == (surveyed.book.items("fitting")[0]["id"], surveyed.face)
