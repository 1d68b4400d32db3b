"""The log as it stands: its entries, what is left, what burned, what reads too cold."""

from dataclasses import dataclass

import streamlit as st

from app import cached, state, waiting
from app.panels import drawing
from app.waiting import inline, plain
from optimizer.errors import InputError, SaveError
from optimizer.model.household import Scenario
from optimizer.report.entries import Teller, entry_rows, latest
from optimizer.report.left import days_left_told
from optimizer.report.measures import in_measures, measures
from optimizer.report.names import Names
from optimizer.report.record import burn_rows, cold_told, left_rows
from optimizer.scenario.appending import put_aside
from optimizer.scenario.clock import moment_written
from optimizer.scenario.logbook import Log, content_of, parse_log
from optimizer.scenario.measured import with_measured
from optimizer.trials.burn import burners, measured_values, of_stove, ratios
from optimizer.trials.course import Course
from optimizer.trials.diary import write
from optimizer.trials.log_check import check
from optimizer.trials.record import Record, followed_in
from optimizer.trials.remains import household_left, paces
from optimizer.trials.replan import course_from, record_from
from optimizer.trials.thermometer import too_cold

PATIENCE_S = 2.0


@dataclass(frozen=True, slots=True)
class Book:
    """The log of the scenario that is worked on."""

    content: bytes
    log: Log


def opened() -> Book:
    """Read the log; where it cannot be read, list why and end the page."""
    path = state.log_file()
    try:
        content = content_of(path)
        return Book(content, parse_log(content, path.name))
    except InputError as error:
        st.error("The log cannot be read. Nothing is lost: what is whole in it stays in it.")
        waiting.list_problems(tuple(error.problems))
        _begin_new()
        st.stop()


def trouble(book: Book, scenario: Scenario) -> None:
    """List what in the log does not go with the scenario.

    Parameters
    ----------
    book
        The log.
    scenario
        The household.
    """
    try:
        check(book.log, scenario)
    except InputError as error:
        st.error("Some entries do not go with this scenario. Correct them, or take them out below.")
        waiting.list_problems(tuple(error.problems))


def record(book: Book, scenario: Scenario) -> Record | None:
    """Put the log beside what was planned; None where it does not go with the scenario.

    Parameters
    ----------
    book
        The log.
    scenario
        The household.
    """
    try:
        check(book.log, scenario)
    except InputError:
        return None
    marked = followed_in([entry for entry, _ in book.log.standing], scenario)
    return record_from(book.log, scenario, marked or _planned())


def _planned() -> Course:
    """Give the plan of the scenario as what is followed; nothing while there is none."""
    search = cached.search(state.text())
    found = search.wait(PATIENCE_S, whole=False)
    if found is None:
        waiting.watch(search, whole=False)
        st.caption("What is left is reckoned once there is a plan.")
        return Course()
    return Course() if found.plan is None else course_from(found.plan)


def left(record: Record) -> None:
    """Draw what is left of every fuel.

    Parameters
    ----------
    record
        The log beside its scenario.
    """
    minute, system = latest(record), measures(state.units())
    when = Teller(record.scenario, system).when(minute)
    weighed = f"At the last entry, {when}: the last weigh-in, less what the plan has burned since."
    told = weighed if record.entries else "Nothing is written down yet: this is the whole stock."
    st.caption(plain(f"{told} The pace is that of the plan, and leaves the reserve untouched."))
    drawing.table(left_rows(record, minute, system))
    found = cached.days_left(household_left(record, minute))
    st.markdown(plain(days_left_told(found, paces(record, minute), record.scenario)))


def cold(record: Record) -> None:
    """Say what read too cold, with the usual cautions.

    Parameters
    ----------
    record
        The log beside its scenario.
    """
    system = measures(state.units())
    found = too_cold(record)
    for each in found:
        st.warning(plain(cold_told(each, system)))
    texts = dict.fromkeys(caution.text for each in found for caution in each.cautions)
    for text in texts:
        st.markdown(f"- {plain(in_measures(text, system))}")


def burned(record: Record) -> None:
    """Draw measured against predicted burn, and offer to take what is sure enough.

    Parameters
    ----------
    record
        The log beside its scenario.
    """
    rows = burn_rows(record, measures(state.units()))
    if not rows:
        st.caption("Not known yet how true the plan is: weigh a fuel twice, with meals between.")
        return
    drawing.table(rows)
    names, known = Names(record.scenario), ratios(record)
    for stove in burners(known):
        st.button(
            f"Take the measured number of the {inline(names.stove(stove))}",
            on_click=_take,
            args=(stove, record),
        )


def _take(stove: str, record: Record) -> None:
    """Write what was measured of a stove into the scenario; it can be undone."""
    ratio = of_stove(ratios(record), stove)
    if ratio is None or ratio.why_not:
        return
    values = measured_values(ratio, record.scenario)
    what = f"measured burn of {stove}"
    state.change(stove, lambda text: with_measured(text, "stoves", stove, values), what)
    state.say(f"Written into the scenario: {what}. Undo takes it back.")


def entries(book: Book, scenario: Scenario) -> None:
    """List the entries, and let one be taken out.

    Parameters
    ----------
    book
        The log.
    scenario
        The household.
    """
    st.caption(plain(f"Kept in {state.log_file().name}; it is only ever added to."))
    for number in book.log.lost:
        st.caption(f"Line {number} of the log was lost while it was being written.")
    if not book.log.entries:
        st.markdown("Nothing yet.")
        return
    drawing.table(entry_rows(book.log, scenario, measures(state.units())))
    with st.container(horizontal=True, vertical_alignment="bottom"):
        numbers = [entry.n for entry, _ in book.log.standing]
        if numbers:
            with st.container(width=200):
                gone = st.selectbox("Take out entry no.", sorted(numbers), key="log gone")
            st.button("It does not count", on_click=_withdraw, args=(gone, book))
        _begin_new()


def _withdraw(number: int, book: Book) -> None:
    """Write down that an entry does not count any more."""
    last = max(entry.at for entry in book.log.entries)
    try:
        said = {"at": moment_written(last), "kind": "withdrawn", "instead_of": number}
        write(state.log_file(), said)
    except (InputError, SaveError) as error:
        state.say(f"Not written: {error}")


def _begin_new() -> None:
    """Draw how to begin a new log."""
    st.button("Begin a new log (the old one is kept)", on_click=_put_aside)


def _put_aside() -> None:
    """Put the log aside, and say where it is."""
    try:
        kept = put_aside(state.log_file())
    except SaveError as error:
        state.say(str(error))
        return
    if kept is not None:
        state.say(f"The old log is kept as {kept.name}.")
