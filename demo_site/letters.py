"""The letters and notes of the invented site: PDFs of one page, of plain text, byte for byte the same each time."""

from __future__ import annotations

from .booking import Values

A4_PT = (595, 842)
MARGIN_PT, LEADING_PT = 72, 16
_WRITTEN = str.maketrans({"’": "'"})

LETTERS: tuple[tuple[Values, tuple[str, ...]], ...] = (
    (
        {"reference": "N1", "name": "Note MQ-14/7: frames, case, sign and rack", "sort": "engineer’s note",
         "items": ["D1", "D4", "D5", "D8"], "from_whom": "structural engineer", "on": "2025-04-07"},
        ("Note MQ-14/7, 7 April 2025", "", "The customs shed at Marrow Quay: D1, D4, D5 and D8.",
         "As drawn, for the loads entered; nobody stands on them.", "", "Structural engineer"),
    ),
    (
        {"reference": "N2", "name": "Consent to pads on distemper", "sort": "letter of consent", "items": ["D10"],
         "from_whom": "conservation adviser", "on": "2025-04-09"},
        ("Marrow Quay, 9 April 2025", "", "Pads that part in their paper layer may be stuck to the distemper of R3-E,",
         "tried first behind D11, for a week.", "", "Conservation adviser to the trust"),
    ),
    (
        {"reference": "N3", "name": "Ways out past D4 and D10 to D12", "sort": "letter",
         "items": ["D4", "D10", "D11", "D12"], "from_whom": "fire officer", "on": "2025-04-02"},
        ("Marrow Quay, 2 April 2025", "", "The width left is enough; the sign over the door stays in view.", "",
         "Fire officer"),
    ),
    (
        {"reference": "N4", "name": "Brass plug of 8 mm: loads in brick", "sort": "data sheet", "items": ["D4", "D11"],
         "from_whom": "maker of the plug", "on": "2025-04-01"},
        ("Expanding brass plug, 8 mm, 1 April 2025", "", "In solid brick, at least 32 mm deep: 600 N in any direction,",
         "for lasting load, edge of the brick no nearer than 50 mm."),
    ),
)  # fmt: skip
KEPT_AS = {"E1": "N1", "A3": "N2", "E3": "N3"}
"""Reference of a specialist's word or an agreement -> that of the letter it rests on."""
SAID_IN = {"L7": "N3"}
"""Mark of a clearance limit -> reference of the letter that says what is to stay free."""
STATED_IN = {"note": "N1", "data sheet of the plug, in brick": "N4"}
"""What a stated load is said to be based on -> reference of the document."""


def pdf(lines: tuple[str, ...]) -> bytes:
    """A PDF of one A4 page with these lines. Structure: ISO 32000-1, 7.5, from memory."""
    shown = "".join(f"({_escaped(line)}) Tj T*\n" for line in lines)
    text = f"BT /F1 11 Tf {LEADING_PT} TL {MARGIN_PT} {A4_PT[1] - MARGIN_PT} Td\n{shown}ET"
    objects = (
        "<< /Type /Catalog /Pages 2 0 R >>",
        "<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {A4_PT[0]} {A4_PT[1]}] /Contents 4 0 R "
        "/Resources << /Font << /F1 5 0 R >> >> >>",
        f"<< /Length {len(text)} >>\nstream\n{text}\nendstream",
        "<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica >>",
    )
    made, places = "%PDF-1.4\n", []
    for number, one in enumerate(objects, 1):
        places.append(len(made))
        made += f"{number} 0 obj\n{one}\nendobj\n"
    table = "".join(f"{place:010} 00000 n \n" for place in places)
    end = f"trailer\n<< /Size {len(objects) + 1} /Root 1 0 R >>\nstartxref\n{len(made)}\n%%EOF\n"
    return f"{made}xref\n0 {len(objects) + 1}\n0000000000 65535 f \n{table}{end}".encode("ascii")


def _escaped(line: str) -> str:
    return line.translate(_WRITTEN).replace("\\", r"\\").replace("(", r"\(").replace(")", r"\)")
