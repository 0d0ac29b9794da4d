"""What the answers about a thing lack is asked for in one form."""

from __future__ import annotations

from tests.sites import Surveyed
from tests.web.conftest import Desk, messages, shown


def test_what_is_lacking_is_entered_together(surveyed: Surveyed, desk: Desk) -> None:
    """Of the fixing and of its fitting, with those fields alone; afterwards they are no longer asked for."""
    fitting = surveyed.fitting(build_up=None)
    fixing = surveyed.fixing(fitting)
    page = f"/item/{fixing}/lacking"
    assert page in desk.get(f"/item/{fixing}").text
    form, mass = shown(desk.get(page).text), f"mass_loaded_kg-{fitting}"
    assert mass in form and not any(name.startswith("mark-") for name in form)
    assert desk.post(page, form | {mass: "7.3"}).location == f"/item/{fixing}"
    assert surveyed.book.item(fitting)[1]["mass_loaded_kg"] == 7.3
    assert mass not in shown(desk.get(page).text)


def test_figure_that_cannot_be_is_asked_back_and_nothing_is_entered(surveyed: Surveyed, desk: Desk) -> None:
    """Beside its own input, with all that was typed; nor is an empty form an entry."""
    fitting = surveyed.fitting()
    fixing = surveyed.fixing(fitting)
    page, mass, before = f"/item/{fixing}/lacking", f"mass_loaded_kg-{fitting}", surveyed.book.revision()
    answer = desk.post(page, shown(desk.get(page).text) | {mass: "heavy"})
    assert (answer.status_code, list(messages(answer))) == (422, [mass])
    assert shown(answer.text)[mass] == "heavy"
    assert desk.post(page, shown(desk.get(page).text)).status_code == 422
    assert surveyed.book.revision() == before
