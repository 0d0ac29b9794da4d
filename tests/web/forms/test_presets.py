"""What a new form begins with, whatever its address says."""

from __future__ import annotations

from werkzeug.datastructures import MultiDict

from fieldbook.book.gathering import gather
from fieldbook.book.site import targets_of
from fieldbook.model.fields import ANY
from fieldbook.model.kinds import KINDS
from fieldbook.web.forms.presets import counted_on, presets
from tests.sites import Surveyed
from tests.web.conftest import Desk
from tests.web.test_routes import furnished


def test_link_of_an_address_leads_to_its_kind_or_nowhere(surveyed: Surveyed) -> None:
    """Any thing of the site as any link of any kind: what cannot be is left out, and the form asks for it."""
    site = gather(furnished(surveyed).book, surveyed.site)
    for kind in KINDS.values():
        links = [field for field in kind.fields if field.to]
        for one in site.everything():
            values = counted_on(kind, site, presets(kind, site, MultiDict({field.name: one for field in links})))
            for field in links:
                led = [site[target].kind for target in targets_of(values.get(field.name))]
                assert field.to == ANY or set(led) <= {field.to}, (kind.name, field.name, led)


def test_fixing_of_what_is_no_fitting_has_no_mark_yet(surveyed: Surveyed, desk: Desk) -> None:
    """An agreement named as its fitting: the form comes, without one."""
    said = furnished(surveyed).book.items("agreement")[0]["id"]
    page = desk.get(f"/site/{surveyed.site}/new/fixing?fitting={said}")
    assert page.status_code == 200
    assert f'value="{said}" selected' not in page.text
