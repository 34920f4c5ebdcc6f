import pytest

from bot.tryout.clean import clean


@pytest.mark.parametrize(
    ("written", "left"),
    [
        ("<b>Push</b>\n<i>two</i> <u>three</u>", "<b>Push</b>\n<i>two</i> <u>three</u>"),
        ("<ins>a</ins> <strike>b</strike> <del>c</del>", "<u>a</u> <s>b</s> <s>c</s>"),
        ("<blockquote expandable>a</blockquote>", "<blockquote>a</blockquote>"),
        ('<pre><code class="language-csv">a,b</code></pre>', "<pre><code>a,b</code></pre>"),
        ('<a href="https://a.example/?b=1&amp;c=2">d</a>', '<a href="https://a.example/?b=1&amp;c=2">d</a>'),
        ('<a href="HTTP://a.example">d</a>', '<a href="HTTP://a.example">d</a>'),
        ('<a href="javascript:alert(1)">d</a>', "d"),
        ('<a href="data:text/html,x">d</a>', "d"),
        (
            "<a href='https://a.example\" onclick=\"x'>d</a>",
            '<a href="https://a.example&quot; onclick=&quot;x">d</a>',
        ),
        ("<b onclick=x style=y>a</b>", "<b>a</b>"),
        ("<tg-spoiler>a</tg-spoiler><span class='x'>b</span>", "ab"),
        ("<img src=x onerror=alert(1)>a", "a"),
        ("<script>alert(1)</script>", "alert(1)"),
        ("a &lt;b&gt; &amp; &quot;c&quot;", 'a &lt;b&gt; &amp; "c"'),
        ("<b><i>a</b>b</i>", "<b><i>a</i></b>b"),
        ("</b>a<b>b", "a<b>b</b>"),
        ("a < b <", "a &lt; b &lt;"),
        ("<!-- a --><!doctype html>b", "b"),
    ],
)
def test_only_allowed_tags_are_left(written: str, left: str) -> None:
    assert clean(written) == left
