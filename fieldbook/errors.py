"""The one shape of an error.

Every refusal says what was wrong, with which value, why, and what to do about it. The
command line, a page, the phone and the record all render the same object, and tests
assert `code` and `field`, never the wording.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

SHOWN_LENGTH = 60


def shown(value: Any) -> str:
    """A value as a person may read it back: short, on one line, without control characters."""
    text = value if isinstance(value, str) else f"{value:.10g}" if isinstance(value, float) else repr(value)
    text = "".join(letter if letter.isprintable() else "�" for letter in text)
    return text if len(text) <= SHOWN_LENGTH else text[: SHOWN_LENGTH - 1] + "…"


class FieldbookError(Exception):
    """Something the person at the wall or at the desk has to know and can act on.

    code    stable word for programs, kebab-case; set by the subclass
    field   name of the field it is about, or None when it is about the whole
    value   what was given
    reason  what is wrong and by which rule
    remedy  what to do
    about   the name of the input that the reason begins with, where it does: a page has another name for it
    line    number of the line or row it is about, where several were given together
    """

    code = "refused"
    line: int | None = None

    def __init__(self, reason: str, remedy: str, *, field: str | None = None, value: Any = None, about: str = ""):
        self.about, self.finds = about, reason
        reason = f"{about} {reason}".strip()
        super().__init__(f"{reason} {remedy}".strip())
        self.reason = reason
        self.remedy = remedy
        self.field = field
        self.value = value

    def named(self, name: str, field: str | None) -> FieldbookError:
        """The same error as a page tells it, where its input has this name and stands at this field."""
        if not self.about:
            return type(self)(self.reason, self.remedy, field=field, value=self.value)
        return type(self)(self.finds, self.remedy, field=field, value=self.value, about=name)

    def as_dict(self) -> dict[str, Any]:
        """The same error as plain values, for JSON."""
        return {
            "error": self.code,
            "field": self.field,
            "value": None if self.value is None else shown(self.value),
            "reason": self.reason,
            "remedy": self.remedy,
        }


class OutOfRange(FieldbookError):
    """A number lies outside the bounds a field or a formula holds for; NaN lies outside all."""

    code = "out-of-range"


class NotANumber(FieldbookError):
    """Text stands where a number is wanted."""

    code = "not-a-number"


class NotAChoice(FieldbookError):
    """A word that is not among those the field knows."""

    code = "not-a-choice"


class Missing(FieldbookError):
    """A field that must be filled is empty."""

    code = "missing"


class UnsuitableText(FieldbookError):
    """Text that is too long, or holds control characters or marks that change its direction."""

    code = "unsuitable-text"


class UnsuitableShape(FieldbookError):
    """An outline that crosses itself, has no area, or points that cannot be used together."""

    code = "unsuitable-shape"


class OutsideTheFace(FieldbookError):
    """A place on a face that lies beyond the face's edges."""

    code = "outside-the-face"


class UnknownField(FieldbookError):
    """A field or key this kind or calculation does not have."""

    code = "unknown-field"


class UnknownKind(FieldbookError):
    """A kind of entry this version does not know."""

    code = "unknown-kind"


class UnknownItem(FieldbookError):
    """Something that is referred to has not been recorded, or not yet."""

    code = "unknown-item"


class WrongUse(FieldbookError):
    """The program was called in a way it does not understand."""

    code = "wrong-use"


class Refused(FieldbookError):
    """Several findings at once, so that a form can be mended in one go.

    findings  the errors, in the order of the fields
    """

    code = "findings"

    def __init__(self, findings: Iterable[FieldbookError]):
        self.findings = list(findings)
        first = self.findings[0]
        more = f" ({len(self.findings) - 1} more)" if len(self.findings) > 1 else ""
        super().__init__(first.reason + more, first.remedy, field=first.field, value=first.value)

    def as_dict(self) -> dict[str, Any]:
        return super().as_dict() | {"findings": [finding.as_dict() for finding in self.findings]}
