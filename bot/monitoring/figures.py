"""The program's figures as Prometheus text. Numbers and words of our own: no id, no name, nothing of anybody."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from prometheus_client import CollectorRegistry, ProcessCollector, generate_latest
from prometheus_client.core import CounterMetricFamily, GaugeMetricFamily, Metric
from prometheus_client.registry import Collector

from bot.messages import Lane, Level
from bot.store.workload import OPEN, Workload


@dataclass(frozen=True, slots=True)
class Figures:
    """What is told.

    Attributes:
        leads: Whether this process sends and ticks, of those that serve one database.
        taken: Updates kept since the start.
        answered: Updates settled since the start.
        sends: Calls since the start, by lane and what became of them.
        tick_late_s: How much later than it should the last tick began. [s]
        ticks_failed: Ticks that failed since the start.
        fetch_age_s: How long ago the platform last answered a fetch; None before the first. [s]
        open_age_s: How old the oldest message is that waits for an answer; 0 when none waits. [s]
        workload: What waits in the store; None when the store cannot be asked.
    """

    taken: int
    answered: int
    sends: Mapping[tuple[Lane, str], int]
    tick_late_s: float
    ticks_failed: int
    fetch_age_s: float | None
    open_age_s: float = 0.0
    leads: bool = True
    workload: Workload | None = field(default_factory=Workload)


TOO_FAST = "too_fast"


def prometheus_text(figures: Figures) -> bytes:
    """Write the figures, and those of the process (memory, CPU, files), as Prometheus text 0.0.4."""
    registry = CollectorRegistry()
    registry.register(_Given(figures))
    ProcessCollector(registry=registry)
    return generate_latest(registry)


class _Given(Collector):
    """Figures handed in: the parts of the program count for themselves, and nothing is global."""

    def __init__(self, figures: Figures) -> None:
        self._figures = figures

    def collect(self) -> Iterator[Metric]:
        yield from _in_and_out(self._figures)
        yield from _time(self._figures)
        yield GaugeMetricFamily("plimsoll_leads", "Whether this process leads", value=self._figures.leads)
        yield GaugeMetricFamily(
            "plimsoll_store_up", "Whether the store can be asked", value=self._figures.workload is not None
        )
        if self._figures.workload is not None:
            yield from _waiting(self._figures.open_age_s, self._figures.workload)


def _in_and_out(figures: Figures) -> Iterator[Metric]:
    yield CounterMetricFamily("plimsoll_updates_taken", "Updates kept", value=figures.taken)
    yield CounterMetricFamily("plimsoll_updates_answered", "Updates settled", value=figures.answered)
    sends = CounterMetricFamily("plimsoll_sends", "Calls by what became of them", labels=("lane", "outcome"))
    for (lane, outcome), count in sorted(figures.sends.items()):
        sends.add_metric((lane.value, outcome), count)
    yield sends
    too_fast = sum(count for (_, outcome), count in figures.sends.items() if outcome == TOO_FAST)
    yield CounterMetricFamily("plimsoll_too_many_requests", "Answers 429 to calls", value=too_fast)


def _time(figures: Figures) -> Iterator[Metric]:
    yield GaugeMetricFamily(
        "plimsoll_tick_late_seconds", "How late the last tick began", value=figures.tick_late_s
    )
    yield CounterMetricFamily("plimsoll_ticks_failed", "Ticks that failed", value=figures.ticks_failed)
    if figures.fetch_age_s is not None:
        yield GaugeMetricFamily(
            "plimsoll_fetch_age_seconds", "Since the platform answered a fetch", value=figures.fetch_age_s
        )


def _waiting(open_age_s: float, workload: Workload) -> Iterator[Metric]:
    yield GaugeMetricFamily(
        "plimsoll_inbox_oldest_open_seconds", "Age of the oldest message that waits", value=open_age_s
    )
    yield GaugeMetricFamily("plimsoll_inbox_failed", "Messages failed on, still kept", value=workload.failed)
    rows = GaugeMetricFamily("plimsoll_outbox_rows", "Outgoing messages", labels=("lane", "state"))
    for lane in Lane:
        for state in OPEN:
            rows.add_metric((lane.value, state), workload.outbox.get((lane.value, state), 0))
    yield rows
    doubts = sum(count for (_, state), count in workload.outbox.items() if state == "doubtful")
    yield GaugeMetricFamily("plimsoll_outbox_doubtful", "Nobody knows whether they arrived", value=doubts)
    alerts = GaugeMetricFamily("plimsoll_alerts_told", "Alerts told to coaches and kept", labels=("level",))
    for level in Level:
        alerts.add_metric((level.name.lower(),), workload.alerts.get(level, 0))
    yield alerts
