import html

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rows import each_row

from bot.localchat.markup import TYPES, BadMarkup, Formatted, formatted, unescaped, utf16_length


@each_row(
    ("markup", "text", "marks"),
    [
        ("plain", "plain", ()),
        ("<b>5×8</b> kg", "5×8 kg", (("bold", 0, 3),)),
        ("<STRONG>a</strong>", "a", (("bold", 0, 1),)),
        ("<i>a</i><em>b</em>", "ab", (("italic", 0, 1), ("italic", 1, 1))),
        ("<u>a</u><ins>b</ins>", "ab", (("underline", 0, 1), ("underline", 1, 1))),
        ("<s>a</s><strike>b</strike><del>c</del>", "abc", tuple(("strikethrough", at, 1) for at in range(3))),
        ('<span class="tg-spoiler">a</span>', "a", (("spoiler", 0, 1),)),
        ("<tg-spoiler>a</tg-spoiler>", "a", (("spoiler", 0, 1),)),
        ("<code>a</code>", "a", (("code", 0, 1),)),
        ("<blockquote>a</blockquote>", "a", (("blockquote", 0, 1),)),
        ("<blockquote expandable>a</blockquote>", "a", (("expandable_blockquote", 0, 1),)),
        ("<b>a<i>b</i></b>", "ab", (("bold", 0, 2), ("italic", 1, 1))),
        ("<b>a</>", "a", (("bold", 0, 1),)),
        ("<b>a</b >", "a", (("bold", 0, 1),)),
        ("🙂<b>a</b>", "🙂a", (("bold", 2, 1),)),
        ("  <b> a </b>\n", "a", (("bold", 0, 1),)),
        ("<b></b>a", "a", ()),
        ("<a>a</a>", "a", ()),
        ("5 &lt; 6 &gt; 4 &amp; &quot;x&quot;", '5 < 6 > 4 & "x"', ()),
        ("&#233;&#xE9;&#0;", "éé&#0;", ()),
        ("&nbsp;&hellip;&LT;", "&nbsp;&hellip;&LT;", ()),
        ("a & b", "a & b", ()),
        ("a > b", "a > b", ()),
    ],
)
def test_markup_leaves_a_text_and_marks(markup, text, marks):
    read = formatted(markup)
    assert read.text == text
    assert tuple((mark["type"], mark["offset"], mark["length"]) for mark in read.marks) == marks


def test_links_and_languages_are_kept():
    assert formatted('<a href="https://sea.example/?a=1&amp;b=2">x</a>').marks[0]["url"] == (
        "https://sea.example/?a=1&b=2"
    )
    assert formatted("<a href='https://sea.example'>x</a>").marks[0]["url"] == "https://sea.example"
    assert formatted("<a href=tg://x>x</a>").marks[0]["url"] == "tg://x"
    inner, outer = formatted('<pre><code class="language-csv">a,b</code></pre>').marks
    assert (inner["type"], inner["language"], outer["type"]) == ("pre", "csv", "pre")


@each_row(
    ("markup", "words"),
    [
        ("<q>a</q>", 'Unsupported start tag "q" at byte offset 0'),
        ("é<br>", 'Unsupported start tag "br" at byte offset 2'),
        ("<b/>", 'Unsupported start tag "b/" at byte offset 0'),
        ("5 < 6 and 7 > 6", 'Unsupported start tag "" at byte offset 2'),
        ("<!-- a -->", 'Unsupported start tag "!--" at byte offset 0'),
        ("<tr>", 'Unsupported start tag "tr" at byte offset 0'),
        ("5 < 6", "Unclosed start tag at byte offset 2"),
        ("<b>a</b", "Unclosed end tag at byte offset 4"),
        ("<b>a", 'Can\'t find end tag corresponding to start tag "b"'),
        ("a</b>", "Unexpected end tag at byte offset 1"),
        ("<b>a</i>", 'Unmatched end tag at byte offset 4, expected "</b>", found "</i>"'),
        ("<b><i>a</b></i>", 'Unmatched end tag at byte offset 7, expected "</i>", found "</b>"'),
        ("<b>a</b x>", 'Unmatched end tag at byte offset 4, expected "</b>", found "</b x>"'),
        ("<span>a</span>", 'Tag "span" must have class "tg-spoiler" at byte offset 0'),
        ('<span class="red">a</span>', 'Tag "span" must have class "tg-spoiler" at byte offset 0'),
        ('<b class="x">a</b>', 'Attribute "class" of the tag "b" at byte offset 0 is not taken'),
        ('<a title="x">a</a>', 'Attribute "title" of the tag "a" at byte offset 0 is not taken'),
        ("<a href>a</a>", 'Expected equal sign in declaration of an attribute of the tag "a"'),
        ('<a href="x>a</a>', 'Expected equal sign in declaration of an attribute of the tag "a"'),
        ("<a =x>a</a>", 'Empty attribute name in the tag "a" at byte offset 0'),
        ('<code class="x">a</code>', 'Class of the tag "code" at byte offset 0 must name a language'),
    ],
)
def test_what_the_platform_refuses_is_refused(markup, words):
    with pytest.raises(BadMarkup) as refused:
        formatted(markup)
    assert str(refused.value) == words


@given(st.text(st.characters(exclude_categories=["Cs"])))
def test_whatever_is_escaped_comes_out_as_it_was(text):
    assert formatted(html.escape(text)) == Formatted(text.strip())


PLAIN = sorted(set(TYPES) - {"a", "span"})
TREES = st.recursive(
    st.text("ab 🙂&<", max_size=4).map(html.escape),
    lambda inner: st.tuples(st.sampled_from(PLAIN), st.lists(inner, max_size=3)).map(
        lambda pair: f"<{pair[0]}>{''.join(pair[1])}</{pair[0]}>"
    ),
    max_leaves=8,
)


@given(TREES)
def test_marks_lie_within_the_text_and_none_is_empty(markup):
    read = formatted(markup)
    for mark in read.marks:
        assert 0 <= mark["offset"] < mark["offset"] + mark["length"] <= utf16_length(read.text)


@pytest.mark.parametrize("code", ["&#55296;", "&#xDFFF;", "&#1114112;"])
def test_a_number_that_is_no_character_stays(code):
    assert unescaped(code) == code
