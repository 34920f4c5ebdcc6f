from prometheus_client.parser import text_string_to_metric_families

from bot.messages import Lane
from bot.monitoring.figures import Figures, prometheus_text
from bot.store.workload import Workload

FIGURES = Figures(
    taken=12,
    answered=11,
    sends={(Lane.TALK, "delivered"): 9, (Lane.BULK, "too_fast"): 2, (Lane.SAFETY, "too_fast"): 1},
    tick_late_s=0.25,
    ticks_failed=1,
    fetch_age_s=3.5,
    open_age_s=40.0,
    workload=Workload(
        None, 2, {("bulk", "queued"): 5, ("talk", "doubtful"): 3, ("bulk", "doubtful"): 1}, {3: 4}
    ),
)

OURS = """\
plimsoll_updates_taken_total 12.0
plimsoll_updates_answered_total 11.0
plimsoll_sends_total{lane="bulk",outcome="too_fast"} 2.0
plimsoll_sends_total{lane="safety",outcome="too_fast"} 1.0
plimsoll_sends_total{lane="talk",outcome="delivered"} 9.0
plimsoll_too_many_requests_total 3.0
plimsoll_tick_late_seconds 0.25
plimsoll_ticks_failed_total 1.0
plimsoll_fetch_age_seconds 3.5
plimsoll_leads 1.0
plimsoll_store_up 1.0
plimsoll_inbox_oldest_open_seconds 40.0
plimsoll_inbox_failed 2.0
plimsoll_outbox_rows{lane="safety",state="queued"} 0.0
plimsoll_outbox_rows{lane="safety",state="sending"} 0.0
plimsoll_outbox_rows{lane="safety",state="doubtful"} 0.0
plimsoll_outbox_rows{lane="safety",state="dead"} 0.0
plimsoll_outbox_rows{lane="safety",state="expired"} 0.0
plimsoll_outbox_rows{lane="talk",state="queued"} 0.0
plimsoll_outbox_rows{lane="talk",state="sending"} 0.0
plimsoll_outbox_rows{lane="talk",state="doubtful"} 3.0
plimsoll_outbox_rows{lane="talk",state="dead"} 0.0
plimsoll_outbox_rows{lane="talk",state="expired"} 0.0
plimsoll_outbox_rows{lane="bulk",state="queued"} 5.0
plimsoll_outbox_rows{lane="bulk",state="sending"} 0.0
plimsoll_outbox_rows{lane="bulk",state="doubtful"} 1.0
plimsoll_outbox_rows{lane="bulk",state="dead"} 0.0
plimsoll_outbox_rows{lane="bulk",state="expired"} 0.0
plimsoll_outbox_doubtful 4.0
plimsoll_alerts_told{level="digest"} 0.0
plimsoll_alerts_told{level="today"} 0.0
plimsoll_alerts_told{level="now"} 4.0
"""


def ours(text: str) -> str:
    return "".join(line for line in text.splitlines(keepends=True) if line.startswith("plimsoll_"))


def test_every_figure_is_a_line() -> None:
    assert ours(prometheus_text(FIGURES).decode()) == OURS


def test_the_text_is_read_by_the_format_s_own_reader_and_has_the_process_s_memory() -> None:
    families = {each.name: each for each in text_string_to_metric_families(prometheus_text(FIGURES).decode())}

    assert families["plimsoll_sends"].type == "counter"
    assert families["plimsoll_store_up"].documentation == "Whether the store can be asked"
    assert families["process_resident_memory_bytes"].samples[0].value > 1_000_000


def test_without_a_store_and_before_a_fetch_the_rest_is_told() -> None:
    text = ours(prometheus_text(Figures(0, 0, {}, 0.0, 0, None, workload=None)).decode())

    assert text.splitlines() == [
        "plimsoll_updates_taken_total 0.0",
        "plimsoll_updates_answered_total 0.0",
        "plimsoll_too_many_requests_total 0.0",
        "plimsoll_tick_late_seconds 0.0",
        "plimsoll_ticks_failed_total 0.0",
        "plimsoll_leads 1.0",
        "plimsoll_store_up 0.0",
    ]
