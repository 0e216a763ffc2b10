"""The review page as HTML, from a template that a person may edit."""

from __future__ import annotations

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from studio.places import templates
from studio.review.page import Page


def html(page: Page) -> str:
    """The page as one file. Every text is escaped; what the template asks for and is not there is an error."""
    environment = Environment(
        loader=FileSystemLoader(templates() / "review"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    return environment.get_template("page.html").render(page=page)
