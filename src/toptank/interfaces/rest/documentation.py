"""The page that tells how to use REST: made from the OpenAPI document, plain HTML, nothing fetched from anywhere."""

import json
from collections.abc import Iterator
from html import escape

from toptank.interfaces.rest.refusals import JsonObject

EXAMPLES = {
    "POST /jobs/{number}/readings": '{"duty": "ridge climb", "gauge": "218 F", "by": "logger"}',
    "POST /jobs/{number}/notes": '{"text": "fan roars only when the bonnet is open"}',
    "POST /jobs/{number}/close": '{"causes": ["fan clutch slips"], "how": "replaced, cured"}',
    "POST /jobs/{number}/verify": '{"log": "0c3f9a", "ambient": "92 F", "done": ["replace the fan clutch"]}',
    "POST /jobs": '{"like": "pickup-1970s-v8-air", "title": "green pickup", "complaint": "hot on the grade"}',
}
"""Bodies that show how it is meant."""

SENT_AS_FILE = ("POST /jobs/{number}/attachments",)

GROUPS = {"jobs": "The record of jobs", "answers": "Answers to a job", "bench": "Without a job"}


def page(document: JsonObject) -> str:
    """Return the page."""
    place = document["servers"][0]["url"]
    by_group: dict[str, list[str]] = {group: [] for group in GROUPS}
    links: list[str] = []
    for path, verbs in document["paths"].items():
        for verb, operation in verbs.items():
            anchor = operation["operationId"]
            by_group[operation["tags"][0]].append("".join(_operation(path, verb.upper(), operation, document, place)))
            links.append(f'<li><a href="#{escape(anchor)}">{verb.upper()} {escape(path)}</a></li>')
    sections = "".join(f"<h2>{GROUPS[group]}</h2>{''.join(parts)}" for group, parts in by_group.items())
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1"><title>REST · toptank</title>'
        f"<style>{STYLE}</style>\n</head>\n<body>\n<main>\n<h1>toptank for another program</h1>"
        f"{_told(document['info']['description'])}"
        f'<p>The same as a document for machines: <a href="{place}/openapi.json">{place}/openapi.json</a> '
        f"(OpenAPI {escape(document['openapi'])}).</p>"
        f"<nav aria-label='addresses'><ul>{''.join(links)}</ul></nav>{sections}\n</main>\n</body>\n</html>\n"
    )


def _told(words: str) -> str:
    parts = escape(" ".join(words.split())).split("`")
    return f"<p>{''.join(f'<code>{part}</code>' if place % 2 else part for place, part in enumerate(parts))}</p>"


def _operation(path: str, verb: str, operation: JsonObject, document: JsonObject, place: str) -> Iterator[str]:
    yield f'<section id="{escape(operation["operationId"])}"><h3><b>{verb}</b> {escape(path)}</h3>'
    yield _told(operation.get("description", ""))
    rows = [*_parameters(operation), *_body(operation, document)]
    if rows:
        head = "<tr><th scope='col'>name</th><th scope='col'>where</th><th scope='col'>what</th></tr>"
        yield f"<table><thead>{head}</thead><tbody>{''.join(rows)}</tbody></table>"
    yield f"<pre>{escape(_example(path, verb, place))}</pre>"
    codes = "; ".join(f"<b>{escape(code)}</b> {_answer(answer)}" for code, answer in operation["responses"].items())
    yield f"<p>Answers: {codes}.</p></section>"


def _answer(answer: JsonObject) -> str:
    """What comes back: the kind of file or the schema, or why not."""
    ((kind, content),) = answer["content"].items()
    name = content["schema"].get("$ref", "").rpartition("/")[2]
    if name == "refusal":
        return escape(answer["description"])
    return f"<code>{escape(name or kind)}</code>"


def _parameters(operation: JsonObject) -> Iterator[str]:
    for one in operation.get("parameters", []):
        yield _row(one["name"], one["in"], one.get("required", False), {**one["schema"], **one})


def _body(operation: JsonObject, document: JsonObject) -> Iterator[str]:
    content = operation.get("requestBody", {}).get("content", {})
    for kind in content.values():
        if "$ref" not in kind["schema"]:
            yield _row("the file itself", "body", needed=True, schema={})
            continue
        name = kind["schema"]["$ref"].rpartition("/")[2]
        shape = document["components"]["schemas"][name]
        for key, schema in shape["properties"].items():
            yield _row(key, "body", key in shape.get("required", []), schema)


def _row(name: str, where: str, needed: bool, schema: JsonObject) -> str:
    told = schema.get("description", "")
    shapes: list[JsonObject] = [schema, *schema.get("anyOf", [])]
    enums: list[list[object]] = [one["enum"] for one in shapes if "enum" in one]
    choices = enums[0] if enums else []
    words = ", ".join(filter(None, (told, f"one of {', '.join(map(json.dumps, choices))}" if choices else "")))
    if "default" in schema and schema["default"] not in (None, "", []):
        words += f"; {json.dumps(schema['default'])} if not said"
    must = "<b>needed</b> " if needed else ""
    return f"<tr><th scope='row'>{escape(name)}</th><td>{where}</td><td>{must}{escape(words)}</td></tr>"


def _example(path: str, verb: str, place: str) -> str:
    named = path.replace("{number}", "1").replace("{quantity}", "top_tank").replace("{checksum}", "0c3f9a")
    address = f"http://127.0.0.1:8322{place}{named}"
    if verb == "GET":
        return f"curl {address}"
    if f"{verb} {path}" in SENT_AS_FILE:
        return f"curl -X {verb} '{address}?name=climb.gpx' \\\n  --data-binary @climb.gpx"
    body = EXAMPLES.get(f"{verb} {path}")
    sent = f" \\\n  -d '{body}'" if body else " -d @body.json"
    return f"curl -X {verb} {address} \\\n  -H 'content-type: application/json'{sent}"


STYLE = """
:root { color-scheme: light dark; --paper: light-dark(#f4f0e6, #14171a); --ink: light-dark(#1b2025, #eeebe3);
  --line: light-dark(#b8ae98, #3b4247); --sheet: light-dark(#fffdf8, #1d2225); --cool: light-dark(#1d5a96, #8ec5ff); }
body { margin: 0; background: var(--paper); color: var(--ink); font: 17px/1.45 "Segoe UI", Roboto, Arial, sans-serif; }
main { max-width: 60rem; margin: 0 auto; padding: 1rem; }
h2 { border-bottom: 3px double var(--ink); padding-top: 1.5rem; } h3 { font-weight: 400; margin-bottom: 0.3rem; }
section { background: var(--sheet); border: 1px solid var(--line); padding: 0.4rem 1rem; margin: 1rem 0; }
table { border-collapse: collapse; width: 100%; } th, td { text-align: left; vertical-align: top;
  padding: 0.3rem 0.6rem; border-bottom: 1px solid var(--line); overflow-wrap: anywhere; }
thead th { font-weight: 400; }
pre { background: var(--paper); padding: 0.6rem; overflow-x: auto; } a { color: var(--cool); }
nav ul { columns: 2; padding-left: 1.2rem; } nav li { break-inside: avoid; }
@media (max-width: 600px) { nav ul { columns: 1; } }
"""
