"""The page of REST, made from its own OpenAPI document."""

from typing import Any

from toptank.interfaces.rest.application import PLACE, api
from toptank.interfaces.rest.documentation import EXAMPLES, GROUPS
from toptank.shop.answers.schemas import ANSWERS


def rest_page(made: str) -> str:
    """Return the reference of every address of the interface."""
    document: dict[str, Any] = api().openapi()
    lines = [
        "# REST",
        "",
        made,
        "",
        *document["info"]["description"].splitlines(),
        "",
        f"`toptank serve` answers under `{PLACE}`; every address with its parameters stands on its own page there,",
        f"`{PLACE}/docs`, and in the OpenAPI document `{PLACE}/openapi.json`. A refusal has the keys `field`, `value`,",
        "`limit`, `fix` and, all in one sentence, `says`. An example: a logger tells what it saw on the ridge road,",
        "and asks what the gauge would show at 105 °F:",
        "",
        "```sh",
        f"curl -X POST http://127.0.0.1:8322{PLACE}/jobs/1/readings -H 'content-type: application/json' \\",
        f"  -d '{EXAMPLES['POST /jobs/{number}/readings']}'",
        f"curl 'http://127.0.0.1:8322{PLACE}/jobs/1/what-if?duty=ridge%20climb&ambient=105%20F'",
        "```",
    ]
    for group, heading in GROUPS.items():
        lines += ["", f"## {heading}", "", "| address | does | answers with |", "|---|---|---|"]
        for path, verbs in document["paths"].items():
            for verb, operation in verbs.items():
                if operation["tags"] == [group]:
                    lines.append(f"| `{verb.upper()} {path}` | {operation['description']} | {_answer(operation)} |")
    return "\n".join(lines) + "\n"


def _answer(operation: dict[str, Any]) -> str:
    answer = next(iter(operation["responses"].values()))
    ((kind, content),) = answer["content"].items()
    name = content["schema"].get("$ref", "").rpartition("/")[2]
    if not name:
        return f"`{kind}`"
    file = next(f"answer-{key}" for key, model in ANSWERS.items() if model.__name__ == name)
    return f"[{name}](schema/{file}.json)"
