"""Pages as the bytes of PNG, SVG and PDF files; the same page gives the same bytes."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from contextlib import contextmanager

import matplotlib
from matplotlib.backends.backend_pdf import PdfPages

from solver.sheets.drawing.page import Page

PNG_DOTS_PER_INCH = 150


@contextmanager
def house_settings() -> Iterator[None]:
    """Plotting settings that do not depend on the user's own, put back afterwards."""
    with matplotlib.rc_context():
        matplotlib.rcdefaults()
        matplotlib.rcParams.update(
            {
                "svg.hashsalt": "startrow",
                "hatch.linewidth": 0.35,
                "path.simplify": False,
                "text.hinting": "no_hinting",
            }
        )
        yield


def png(page: Page) -> bytes:
    """The page as a PNG picture."""
    return _saved(page, "png", {"Software": None})


def svg(page: Page) -> bytes:
    """The page as an SVG picture."""
    return _saved(page, "svg", {"Date": None, "Creator": "startrow"})


def pdf(pages: Sequence[Page], title: str) -> bytes:
    """The pages as one PDF."""
    store = io.BytesIO()
    about = {"Title": title, "Creator": "startrow", "Producer": "startrow", "CreationDate": None}
    with house_settings(), PdfPages(store, metadata=about) as book:
        for page in pages:
            book.savefig(page.figure)
    return store.getvalue()


def _saved(page: Page, form: str, about: dict[str, str | None]) -> bytes:
    store = io.BytesIO()
    with house_settings():
        page.figure.savefig(store, format=form, dpi=PNG_DOTS_PER_INCH, metadata=about)
    return store.getvalue()
