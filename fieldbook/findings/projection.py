"""How far a fitting stands out of its face at worst, and whether its packers are those the wall calls for."""

from __future__ import annotations

import math
from dataclasses import replace

from ..book.site import Item, Site
from ..checks import clearance as check
from ..checks.limits import rounded_up
from ..checks.verdict import Verdict, Word, not_known
from ..errors import FieldbookError
from . import geometry
from .asking import NEITHER, Asked, NotEntered, Question, label_of
from .clearance import STANDING_OUT, WHERE, clear_over
from .finding import Blank, Outcome
from .packing import AGREE_MM, Packing, packing_of
from .reach import fixed_to_face, packers_unseen, packing_layer, reach_of

SOURCE = (
    "Tolerance chain: the worst case is the sum of the tolerances; the wall between two readings is taken "
    "at the prouder of them"
)


def projection(asked: Asked, fitting: Item) -> Outcome:
    """The front at worst, the wall, packers, layers and carriers counted, against the depth that is clear there."""
    site = asked.site
    reach = reach_of(site, fitting)
    if told := packers_differ(site, fitting):
        out = None if math.isinf(reach.high) else rounded_up(reach.high)
        verdict = Verdict("projection", Word.OVER, out, None, None, "mm", told, SOURCE, working=reach.steps)
        return Outcome(verdict)
    if (unseen := packers_unseen(fixed_to_face(site, fitting))) and (
        packing_layer(fitting) or worked_out(site, fitting)
    ):
        raise NotEntered(
            Blank(unseen[0], "packers_mm"), None if math.isinf(reach.high) else rounded_up(reach.high), "mm"
        )
    clear = clear_over(site, site[fitting.face], geometry.fitting_stretch(fitting), reach.low)
    against = site.get(clear.limited_by.id) if clear.limited_by else None
    depth = math.inf if clear.depth_mm is None else clear.depth_mm
    if reach.high > depth >= reach.low or math.isinf(reach.high):
        names = "; ".join(label_of(blank) for blank in reach.missing)
        fields = tuple(blank.field for blank in reach.missing)
        verdict = not_known("projection", fields, f"{reach.in_words()}. Not entered: {names}.", SOURCE, "mm")
        verdict = replace(verdict, figure=reach.least, working=reach.steps)
        return Outcome(verdict, against, missing=reach.missing)
    figure = reach.low if reach.low > depth else reach.high
    verdict = replace(check.held(figure, clear), check="projection", source=SOURCE)
    counted = (f"{label_of(blank)} is not entered; the worst that is ordinary is counted." for blank in reach.missing)
    return Outcome(replace(verdict, working=(*reach.steps, *verdict.working)), against, tuple(counted))


def packers_differ(site: Site, fitting: Item) -> str:
    """How the packers entered, those the wall calls for and the layer that stands for them differ; "" if they agree."""
    layer, fixings = packing_layer(fitting), fixed_to_face(site, fitting)
    entered = [fixing.packers_mm for fixing in fixings if fixing.packers_mm is not None]
    if layer and entered and max(entered) > sum(layer):
        return (
            f"The layer for packers is {layer[0]:g} ± {layer[1]:g} mm, and the thickest packer entered is "
            f"{max(entered):g} mm. Correct one of them."
        )
    packing = worked_out(site, fitting)
    if packing is None or packing.refusal or not packing.packed:
        return ""
    if layer and (most := max(row.packer_mm for row in packing.packed)) > sum(layer):
        return (
            f"The layer for packers is {layer[0]:g} ± {layer[1]:g} mm, and the wall calls for {rounded_up(most):g} mm "
            f"of them. Make the layer thicker, or measure again."
        )
    differing = [row for row in packing.packed if row.difference_mm is not None]
    if len(differing) < 2:
        return ""
    thicker = min(row.difference_mm or 0 for row in differing)  # all thicker by the same: as plumb, only farther out
    off = [row for row in differing if abs((row.difference_mm or 0) - max(thicker, 0)) > AGREE_MM]
    if not off:
        return ""
    worst = max(off, key=lambda row: abs((row.difference_mm or 0) - max(thicker, 0)))
    return (
        f"{worst.fixing.called} has packers of {worst.fixing.packers_mm:g} mm, and the wall calls for "
        f"{rounded_up(worst.packer_mm + max(thicker, 0)):g} mm there. Change them, or measure again."
    )


def worked_out(site: Site, fitting: Item) -> Packing | None:
    """The packers the wall calls for behind a fitting; None where it was not measured or is held in one place."""
    face = site[fitting.face]
    if not face.surface or len(fixed_to_face(site, fitting)) < 2:
        return None
    try:
        return packing_of(site, face, fitting)
    except FieldbookError:
        return None


QUESTIONS = (
    Question(
        "projection",
        "fitting",
        "How far does it stand out at worst, and are its packers those the wall calls for?",
        projection,
        {name: way for name, way in (WHERE | STANDING_OUT).items() if not name.endswith("looked_for")}
        | {"fixing.packers_mm": NEITHER},  # thicker ones stand out more, and may be those the wall calls for
    ),
)
