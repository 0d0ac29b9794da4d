"""What the words mean and what every field holds."""

from __future__ import annotations

from flask import Blueprint, render_template

from ...record.glossary import FINDING_WORDS, WORDS

blueprint = Blueprint("glossary", __name__)


@blueprint.get("/glossary")
def words() -> str:
    """Every kind with its fields."""
    return render_template("glossary/words.html", words=WORDS, finding_words=FINDING_WORDS)
