"""The one error the kernel raises: inputs that cannot be taken, each with its field, what was given, what is wanted."""


class InputError(Exception):
    """Inputs that cannot be taken.

    `problems` is a list of `{"field", "given", "wanted"}`; `field` is a path such as `parts[2].claimed`.
    """

    def __init__(self, problems: list[dict[str, str]]) -> None:
        super().__init__("; ".join(p["field"] + ": wanted " + p["wanted"] + ", given " + p["given"] for p in problems))
        self.problems = problems


def problem(field: str, given: object, wanted: str) -> dict[str, str]:
    """One problem. `given` is written as text and shortened, so that an error never carries a megabyte back."""
    text = given if isinstance(given, str) else repr(given)
    if len(text) > 80:
        text = text[:77] + "..."
    return {"field": field, "given": text, "wanted": wanted}


def refuse(field: str, given: object, wanted: str) -> InputError:
    """An `InputError` of one problem, to be raised."""
    return InputError([problem(field, given, wanted)])
