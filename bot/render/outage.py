"""What a coach hears when the program itself stops working."""

from bot.messages import Message


def stopping() -> Message:
    """Tell a coach that nobody is looked after until the program runs again. What is dangerous goes first."""
    return Message(
        "<b>Plimsoll stops: it gets no messages any more.</b>\n"
        "Until it runs again nothing that your clients write reaches you through it, a warning sign neither, and no "
        "session goes out. Ask whoever runs it to start it again. If you are worried about somebody, call them."
    )
