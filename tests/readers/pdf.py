"""Reads the lines of a PDF file by following its content streams as pypdf decodes them."""

from dataclasses import dataclass, field
from io import BytesIO
from typing import Any

from tests.readers.contour import XY, Contour, cubic_points

MM = 25.4 / 72
Matrix = tuple[float, float, float, float, float, float]
Box = tuple[float, float, float, float]


@dataclass
class _State:
    """Where drawing stands: the transform, the clip, the path that is being made."""

    matrix: Matrix
    clip: Box | None = None
    lines: list[tuple[list[XY], bool]] = field(default_factory=list)
    clipping: bool = False


def document(data: bytes) -> Any:
    """Return the file as pypdf sees it."""
    from pypdf import PdfReader

    return PdfReader(BytesIO(data))


def contours(data: bytes, page: int = 0) -> list[Contour]:
    """Return every stroked line of a page in mm, y down; a PDF's lines have no layer here."""
    sheet = document(data).pages[page]
    height = float(sheet.mediabox.height)
    found: list[Contour] = []
    state = _State((MM, 0.0, 0.0, -MM, 0.0, height * MM))
    _follow(sheet.get_contents(), sheet["/Resources"], state, found)
    return found


def _follow(stream: Any, resources: Any, state: _State, found: list[Contour]) -> None:
    from pypdf.generic import ContentStream

    saved: list[tuple[Matrix, Box | None]] = []
    for operands, operator in ContentStream(stream, None).operations:
        word = operator.decode("ascii")
        if word == "q":
            saved.append((state.matrix, state.clip))
        elif word == "Q":
            state.matrix, state.clip = saved.pop()
        elif word == "Do":
            form = resources["/XObject"][operands[0]].get_object()
            if form["/Subtype"] == "/Form":
                inner = _State(_then(_numbers(form.get("/Matrix", (1, 0, 0, 1, 0, 0))),
                                     state.matrix), state.clip)  # fmt: skip
                _follow(form, form["/Resources"], inner, found)
        elif word == "cm":
            state.matrix = _then(_numbers(operands), state.matrix)
        else:
            _path(
                word, [float(n) for n in operands] if word in {"m", "l", "c", "re"} else [], state
            )
            _paint(word, state, found)


def _numbers(values: Any) -> Matrix:
    a, b, c, d, e, f = (float(v) for v in values)
    return (a, b, c, d, e, f)


def _then(one: Matrix, after: Matrix) -> Matrix:
    a, b, c, d, e, f = one
    m = after
    return (
        a * m[0] + b * m[2], a * m[1] + b * m[3], c * m[0] + d * m[2], c * m[1] + d * m[3],
        e * m[0] + f * m[2] + m[4], e * m[1] + f * m[3] + m[5],
    )  # fmt: skip


def _on(matrix: Matrix, x: float, y: float) -> XY:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def _path(word: str, n: list[float], state: _State) -> None:
    places = [_on(state.matrix, *n[k : k + 2]) for k in range(0, len(n) - 1, 2)]
    if word == "m":
        state.lines.append((places, False))
    elif word == "l":
        state.lines[-1][0].append(places[0])
    elif word == "c":
        points = state.lines[-1][0]
        points += cubic_points(points[-1], *places)
    elif word == "h":
        state.lines[-1] = (state.lines[-1][0], True)
    elif word == "re":
        x, y, w, h = n
        corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h))
        state.lines.append(([_on(state.matrix, *corner) for corner in corners], True))
    elif word in {"W", "W*"}:
        state.clipping = True


def _paint(word: str, state: _State, found: list[Contour]) -> None:
    if word not in {"S", "s", "f", "f*", "B", "n"}:
        return
    if state.clipping:
        state.clip = Contour(None, state.lines[0][0], closed=True).box()
    if word in {"S", "s", "B"}:
        found += [Contour(None, points, closed, state.clip) for points, closed in state.lines]
    state.lines, state.clipping = [], False
