"""The folder that is handed over: a bag with the record, the data, the drawings, the photographs and the ledger.

All of it is of one edition, and the same book gives the same bytes.
"""

from __future__ import annotations

import json
import shutil
import tempfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from .. import __version__
from ..book import documents, evidence, one_site, printed
from ..book.book import Book
from ..book.examine import refuse_damaged
from ..book.gathering import gather
from ..book.identity import uuid7
from ..book.photographs import UnsuitablePhotograph, reduced
from ..book.site import Item, Site
from ..book.storage import storage_errors
from ..book.wording import day
from ..errors import FieldbookError
from ..findings import Finding, appraise
from ..folders import TEMPLATES
from ..model.choices import PLANNED
from ..model.kinds import KINDS
from . import bag
from .album import is_receipt
from .as_left import write_as_left
from .csv_tables import tables_of
from .diary import diary_of, gone_from
from .drawings import drawings_of
from .editions import Edition, editions
from .file_names import names_for, safe_name
from .json_data import data_of, schema
from .labels import write_labels
from .pdf import Progress, make_record
from .printing import file_of
from .setting_out_sheet import write_setting_out_sheet

LEDGER, EDITIONS, RECORD = "data/ledger/ledger.jsonl", "data/ledger/editions.json", "data/record.pdf"
OTHERS_PX = 2400  # the longest side of a photograph for others
ENDINGS = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp", "image/heic": "heic"}
MONEY = "Money"


class FolderNotMade(FieldbookError):
    """The folder to hand over cannot be made where it was wanted."""

    code = "folder-not-made"


def handover(
    book: Book, site_id: str, folder: Path, *, for_others: bool = False, progress: Progress | None = None
) -> Edition:
    """Write the folder of a site; it is there whole or not at all.

    folder      one that does not exist yet, or is empty
    for_others  without the ledger and money, and with photographs that do not tell their place
    progress    told how far the record is, where it has to be made: done, total, in words
    Raises UnknownItem, NewerBook, FolderNotMade, Refused where ledger or photographs are not as they were, what
    making a record raises, and the errors of `storage`.
    """
    book.refuse_newer()
    folder = folder.absolute()
    _refuse_taken(folder)
    edition = edition_of_now(book, site_id) or _new_edition(book, site_id, progress)
    with storage_errors(folder), tempfile.TemporaryDirectory(dir=folder.parent, prefix=".handover-") as temporary:
        whole = Path(temporary) / "whole"
        site = gather(book, site_id)
        if one_site.last_revision(book, site_id) > edition.revision:  # a phone has sent something meanwhile
            raise FolderNotMade("Something was entered while the folder was made.", "Make it again.", field="folder")
        kept = file_of(book, site_id, str(edition.number), False)
        refuse_damaged(book, [one.id for kind in evidence.SHELVES for one in site.all(kind)], kept)
        _Folder(book, without_money(site) if for_others else site, edition, whole, for_others).write()
        if folder.exists():
            folder.rmdir()
        shutil.move(whole, folder)
    return edition


def _refuse_taken(folder: Path) -> None:
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise FolderNotMade(f"{folder} is not empty.", "Name a folder that does not exist yet.", field="folder")
    if not folder.parent.is_dir():
        raise FolderNotMade(f"There is no folder {folder.parent}.", "Make it, or name another.", field="folder")


def edition_of_now(book: Book, site_id: str) -> Edition | None:
    """The latest edition of a site, where nothing was entered about it since and its record lies in the book."""
    issued = editions(book, site_id)
    if not issued or one_site.last_revision(book, site_id) > issued[-1].revision:
        return None
    return issued[-1] if file_of(book, site_id, str(issued[-1].number), False).is_file() else None


def _new_edition(book: Book, site_id: str, progress: Progress | None) -> Edition:
    """Make the record of the present state, and keep it in the book."""
    if book.is_only_read:
        reason = "The state the site is in has no edition, and nothing can be written in this book."
        raise FolderNotMade(reason, "Make the record where the book can be written, then the folder.", field="book")
    making = file_of(book, site_id, uuid7(), False)
    with storage_errors(making.parent):
        making.parent.mkdir(parents=True, exist_ok=True)
    edition = make_record(book, site_id, making, progress=progress)
    printed.keep(book, making, file_of(book, site_id, str(edition.number), False))
    return edition


@dataclass
class _Folder:
    """One folder on its way; `missing` tells what should be in it and is not."""

    book: Book
    site: Site
    edition: Edition
    folder: Path
    for_others: bool
    missing: list[str] = field(default_factory=list)

    def write(self) -> None:
        """Write all of it, and seal it."""
        on = self.edition.day
        findings = appraise(self.site, on)
        self._copy(file_of(self.book, self.site.item.id, str(self.edition.number), False), RECORD)
        self._data(findings)
        head = f"edition {self.edition.number}, {day(self.edition.made_at)}"
        for name, drawing in drawings_of(self.site, findings, head):
            self._put(f"data/drawings/{name}", drawing)
        self._set_out(findings, head)
        write_labels(self.site, self._path("data/labels.pdf"), on, head)
        if any(not one.stands for one in self.site.all("fitting")):
            write_as_left(self.book, self.site, self._path("data/as-left.pdf"), head)
        gone = gone_from(self.book, self.site)
        told = self.edition.revision, self.edition.made_at
        self._put("data/diary.ics", diary_of(self.site, gone, *told, first=self.edition.number == 1))
        self._photographs()
        self._logs()
        if not self.for_others:  # a letter names people, and what is hidden in a PDF cannot be taken out here
            self._documents()
            self._ledger()
        self._put("README.txt", self._readme())
        bag.seal(self.folder, self._info())

    def _path(self, name: str) -> Path:
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        return path

    def _put(self, name: str, text: str) -> None:
        self._path(name).write_text(text, encoding="utf-8", newline="")

    def _copy(self, source: Path, name: str) -> None:
        shutil.copyfile(source, self._path(name))

    def _data(self, findings: Sequence[Finding]) -> None:
        for name, text in tables_of(self.site, findings).items():
            self._put(f"data/csv/{name}", text)
        about = {"book": self.book.fact("book"), "site": self.site.item.id, "edition": self.edition.number}
        about |= {name: getattr(self.edition, name) for name in ("revision", "digest", "made_at")}
        self._put("data/json/site.json", _json(data_of(self.site, findings, about)))
        self._put("data/json/schema.json", _json(schema()))

    def _set_out(self, findings: Sequence[Finding], head: str) -> None:
        """A sheet to work by for each face where something is planned."""
        wanted = [face for face in self.site.all("face") if _is_worked_at(self.site, face)]
        names = names_for(((face.id, face.title) for face in wanted), "face")
        for face in wanted:
            path = self._path(f"data/setting-out/{names[face.id]}.pdf")
            write_setting_out_sheet(self.book, self.site, face, findings, path, state=head)

    def _photographs(self) -> None:
        for digest, photograph, name in self._kept("photograph"):
            try:
                if self.for_others:
                    self._path(f"data/photographs/{name}.jpg").write_bytes(reduced(self.book, digest, OTHERS_PX))
                else:
                    path = evidence.path_of(self.book.folder, "photograph", digest)
                    self._copy(path, f"data/photographs/{name}.{ENDINGS.get(photograph.media_type, 'bin')}")
            except (FileNotFoundError, UnsuitablePhotograph):
                self.missing.append(f"photograph {digest} ({photograph.title}): not arrived yet, damaged, or taken out")

    def _logs(self) -> None:
        for digest, log, name in self._kept("log"):
            try:
                self._copy(evidence.path_of(self.book.folder, "log", digest), f"data/logs/{name}.csv")
            except FileNotFoundError:
                self.missing.append(f"logger's file {digest} ({log.title})")

    def _documents(self) -> None:
        for digest, document, name in self._kept("document"):
            try:
                path = evidence.path_of(self.book.folder, "document", digest)
                self._copy(path, f"data/documents/{name}.{documents.ENDINGS.get(document.file_type, 'bin')}")
            except FileNotFoundError:
                self.missing.append(f"document {digest} ({document.title}): lost, or taken out")

    def _kept(self, kind: str) -> Iterator[tuple[str, Item, str]]:
        """Digest, item and name of each file of a kind, once; for a book again also what was withdrawn."""
        files: dict[str, tuple[Item, str]] = {}
        for item in self.site.all(kind):
            files.setdefault(item.sha256, (item, self._called(item)))
        mine = set() if self.for_others else one_site.belonging(self.book, self.site.item.id)
        for values in self.book.items(kind, withdrawn=True):
            if values["id"] in mine and values["sha256"]:
                files.setdefault(values["sha256"], (Item(kind, values["id"], values), "withdrawn"))
        names = names_for(((digest, f"{name} {digest[:12]}") for digest, (_, name) in files.items()), kind)
        yield from ((digest, item, names[digest]) for digest, (item, _) in files.items())

    def _called(self, item: Item) -> str:
        if item.kind == "photograph":
            subject = self.site.get(item.subject)
            return safe_name(f"{subject.called if subject else ''} {item.purpose}", "photograph")[:30]
        return safe_name(item.title, item.kind)[:30]

    def _ledger(self) -> None:
        lines = one_site.lines_of(self.book, self.site.item.id, self.edition.revision)
        with self._path(LEDGER).open("w", encoding="utf-8", newline="") as file:
            file.writelines(f"{json.dumps(line, ensure_ascii=False)}\n" for line in lines)
        issued = [vars(one) for one in editions(self.book, self.site.item.id)]
        said = {"book": self.book.fact("book"), "site": self.site.item.id, "editions": issued}
        self._put(EDITIONS, _json(said))

    def _readme(self) -> str:
        made = Environment(
            loader=FileSystemLoader(TEMPLATES / "handover"),
            autoescape=False,  # noqa: S701  plain text, which nothing reads as markup
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        return made.get_template("readme.txt").render(
            site=self.site.item,
            edition=self.edition,
            made_on=day(self.edition.made_at).replace("\u00a0", " "),
            for_others=self.for_others,
            set_out=(self.folder / "data" / "setting-out").is_dir(),
            documents=(self.folder / "data" / "documents").is_dir(),
            logs=(self.folder / "data" / "logs").is_dir(),
            as_left=(self.folder / "data" / "as-left.pdf").is_file(),
            missing=self.missing,
        )

    def _info(self) -> dict[str, str]:
        site = self.site.item
        kind = "a copy for others; it cannot be opened as a book again" if self.for_others else "whole"
        return {
            "Source-Organization": site.keeper or "not entered",
            "External-Identifier": site.id,
            "External-Description": f"{site.name}: care-and-removal record, edition {self.edition.number}, {kind}",
            "Bagging-Date": self.edition.made_at[:10],
            "Bag-Software-Agent": f"Fieldbook {__version__}",
        }


def _is_worked_at(site: Site, face: Item) -> bool:
    things = (*site.of(face, "fitting"), *site.fixings_on(face))
    return any(thing.state == PLANNED for thing in things)


def without_money(site: Site) -> Site:
    """A site without costs, receipts, and what its own item says of money."""
    fields = {one.name for one in KINDS["site"].fields if one.group == MONEY}
    own = {name: None if name in fields else value for name, value in site.item.values.items()}
    kept = [
        one
        for one in site.everything().values()
        if one.kind not in {"site", "cost"} and not (one.kind == "photograph" and is_receipt(site, one))
    ]
    return Site(Item("site", site.item.id, own), kept, site.folder, site.revision, site.digest, site.then)


def _json(value: Any) -> str:
    return f"{json.dumps(value, ensure_ascii=False, indent=1)}\n"
