"""Marks the scripts that a page's own template holds, before anything that anybody typed is put into it."""

import re

from jinja2.ext import Extension
from nicegui import client

from toptank.interfaces.web.access.guard import PLACE

_SCRIPT = re.compile(r"<script\b")


class _OwnScripts(Extension):
    """Works on the source of a template, in which no text of a person stands."""

    def preprocess(self, source: str, name: str | None, filename: str | None = None) -> str:
        return _SCRIPT.sub(f'<script nonce="{PLACE}"', source)


def mark() -> None:
    """Have the framework's templates marked; before the first page is built."""
    client.templates.env.add_extension(_OwnScripts)
