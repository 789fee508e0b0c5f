"""Form widgets written without templates: a choice of forty things would open eighty of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from django.forms.renderers import TemplatesSetting
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

Widget = Mapping[str, Any]

INPUTS = ("text", "number", "email", "url", "tel", "search", "hidden", "date", "time", "checkbox")


class Renderer(TemplatesSetting):
    """Writes what Django's own templates write: `tests/ground/test_form_renderer.py` compares. The rest is theirs."""

    def render(self, template_name: str, context: dict[str, Any], request: Any = None) -> Any:
        write = WRITTEN.get(template_name)
        return super().render(template_name, context, request) if write is None else write(context["widget"])


def attributes(widget: Widget) -> SafeString:
    given = [(name, value) for name, value in widget["attrs"].items() if value is not False]
    return format_html_join("", "{}", ((_attribute(name, value),) for name, value in given))


def _attribute(name: str, value: Any) -> SafeString:
    return format_html(" {}", name) if value is True else format_html(' {}="{}"', name, str(value))


def one_input(widget: Widget) -> SafeString:
    value = "" if widget["value"] is None else format_html(' value="{}"', str(widget["value"]))
    return format_html('<input type="{}" name="{}"{}{}>', widget["type"], widget["name"], value, attributes(widget))


def select(widget: Widget) -> SafeString:
    groups = format_html_join("", "{}", ((_group(name, options),) for name, options, _index in widget["optgroups"]))
    return format_html('<select name="{}"{}>{}\n</select>', widget["name"], attributes(widget), groups)


def _group(name: str | None, options: Iterable[Widget]) -> SafeString:
    inside = format_html_join(
        "",
        '\n  <option value="{}"{}>{}</option>',
        ((str(one["value"]), attributes(one), one["label"]) for one in options),
    )
    return format_html('\n  <optgroup label="{}">{}\n  </optgroup>', name, inside) if name else inside


WRITTEN: Mapping[str, Callable[[Widget], SafeString]] = {
    "django/forms/widgets/select.html": select,
    **{f"django/forms/widgets/{kind}.html": one_input for kind in INPUTS},
}
