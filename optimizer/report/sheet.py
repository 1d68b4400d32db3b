"""The plan on paper: one self-contained page of HTML, a sheet a day, no scripts, no network."""

from collections.abc import Iterator, Sequence
from html import escape
from itertools import groupby

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan, Step
from optimizer.report.balance import fuel_row, gap_lines, saving_lines
from optimizer.report.measures import Measures, Units, in_measures, measures
from optimizer.report.names import Names
from optimizer.report.text import day_name, heading
from optimizer.report.timetable import DAY_MIN, ON, SERVE, Doing, clock, timetable

STYLE = """
@page { margin: 11mm }
* { box-sizing: border-box }
body { font: 11pt/1.35 system-ui, "Liberation Sans", Arial, sans-serif; color: #111;
  background: #fff; margin: 0 auto; padding: 1rem; max-width: 46rem }
h1 { font-size: 17pt; margin: 0 } h2 { font-size: 14pt; margin: 0 0 .4rem }
h3 { font-size: 11pt; margin: .9rem 0 .2rem } p { margin: .25rem 0 }
section { break-after: page; margin-bottom: 2.5rem } section:last-of-type { break-after: auto }
table { border-collapse: collapse; width: 100% } thead { display: table-header-group }
tr { break-inside: avoid } td, th { text-align: left; vertical-align: top; padding: .22rem .4rem }
th { font-weight: 600; border-bottom: 1.5px solid #111 } td { border-bottom: 1px solid #bbb }
.clock { font-size: 15pt; font-weight: 700; white-space: nowrap;
  font-variant-numeric: tabular-nums }
.dish { font-weight: 600 } .serve td { border-bottom: 2px solid #111 }
.serve .dish::before { content: "\\25B8\\00A0" } .box { white-space: nowrap }
.tick { display: inline-block; width: 3.4em; height: 1.5em; border: 1.5px solid #111;
  vertical-align: middle }
.rule { border: 2px solid #111; padding: .5rem .7rem; margin: .8rem 0; break-inside: avoid }
li { break-inside: avoid; margin: .2rem 0 } ul { padding-left: 1.1rem; margin: .3rem 0 }
@media (max-width: 30rem) { body { padding: .6rem } .clock { font-size: 13pt }
  td, th { padding: .2rem .25rem } }
@media print { body { padding: 0; max-width: none; font-size: 10pt; line-height: 1.2 }
  td, th { padding: .1rem .35rem } .clock { font-size: 13pt; line-height: 1.1 }
  .dish { min-width: 8.5em } .rule { margin: .4rem 0; padding: .2rem .6rem } }
"""
POLICY = "default-src 'none'; style-src 'unsafe-inline'"


def sheet_html(plan: Plan, scenario: Scenario, units: Units = "metric") -> str:
    """Write a plan as a page that prints a sheet a day.

    Parameters
    ----------
    plan
        A plan with steps.
    scenario
        The household it was made for.
    units
        ``metric`` or ``us``.

    Returns
    -------
    str
        HTML that needs nothing beside it; every word of the household is escaped.
    """
    system = measures(units)
    body = [_front(plan, scenario, system)]
    doings = timetable(plan, scenario, system)
    for day, todo in groupby(doings, key=lambda d: d.clock // DAY_MIN + 1):
        body.append(_day(day, list(todo), plan, scenario, system))
    return (
        f'<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">\n'
        f"<title>{escape(scenario.title)}</title>\n<style>{STYLE}</style>\n</head>\n<body>\n"
        + "\n".join(body)
        + "\n</body>\n</html>\n"
    )


def _front(plan: Plan, scenario: Scenario, system: Measures) -> str:
    """Give the first sheet: for whom, what it saves, the fuel, what to mind."""
    _, where = heading(scenario, system)[0], " ".join(heading(scenario, system)[1:])
    lead = " ".join([*saving_lines(plan, scenario.currency, system), *gap_lines(plan, scenario)])
    names = Names(scenario)
    rows = [fuel_row(use, names, system) for use in plan.fuels]
    cautions = "".join(f"<li>{text}</li>" for text in _cautions(plan, system))
    return (
        f"<section>\n<h1>{escape(scenario.title)}</h1>\n<p>{escape(where)}</p>\n"
        f"<p><strong>{escape(lead)}</strong></p>\n"
        + _table(("Fuel", "used", "left", "of stock"), rows)
        + f"<h3>Mind</h3>\n<ul>{cautions}</ul>\n</section>"
    )


def _cautions(plan: Plan, system: Measures) -> Iterator[str]:
    for caution in plan.cautions:
        about = f" ({', '.join(caution.items)})" if caution.items else ""
        yield escape(in_measures(caution.text + about, system))


def _table(header: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    head = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in header)
    body = "".join(
        "<tr>" + "".join(f"<td>{escape(cell)}</td>" for cell in row) + "</tr>" for row in rows
    )
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>\n"


def _day(day: int, todo: list[Doing], plan: Plan, scenario: Scenario, system: Measures) -> str:
    hot = any(s.serve_rule == "hot" and s.finish != "flame" and s.day == day for s in plan.steps)
    rows = "".join(_row(doing, plan.steps) for doing in todo)
    return (
        f"<section>\n<h2>{escape(day_name(scenario, day))}</h2>\n"
        f'<table><thead><tr><th scope="col">at</th><th scope="col">what</th>'
        f'<th scope="col">do</th><th scope="col">read</th></tr></thead>'
        f"<tbody>{rows}</tbody></table>\n"
        + (_below_the_line(scenario, system) if hot else "")
        + "</section>"
    )


def _row(doing: Doing, steps: Sequence[Step]) -> str:
    """Give one line of the clock; a dish from a cooker has a box for the thermometer."""
    served = doing.order == SERVE
    boxed = served and any(
        s.item == doing.dish and s.serve == doing.minute and s.finish != "flame" for s in steps
    )
    kind = ' class="serve"' if served else ' class="on"' if doing.order == ON else ""
    box = '<span class="tick" role="img" aria-label="write the temperature here"></span>'
    when = f'<td class="clock">{clock(doing.clock)}</td>'
    if not doing.dish:  # about a fire
        return f'<tr>{when}<td colspan="3">{escape(doing.text)}</td></tr>\n'
    return (
        f'<tr{kind}>{when}<td class="dish">{escape(doing.dish)}</td><td>{escape(doing.text)}</td>'
        f'<td class="box">{box if boxed else ""}</td></tr>\n'
    )


def _below_the_line(scenario: Scenario, system: Measures) -> str:
    line = system.temperature(scenario.rules.hot_c)
    text = (
        f"Read the thermometer in the middle of the pot before serving. Below {line}: for two "
        "hours or more (one in hot weather), or you do not know for how long, throw it away; for "
        "less, heat it to 74 degC all through, eat it at once, and only once."
    )
    return f'<p class="rule">{escape(in_measures(text, system))}</p>\n'
