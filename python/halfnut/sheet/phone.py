"""The phone page beside the cards of a plan."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable

from halfnut._core import DomainError

_SHOP = re.compile(r'(<script type="application/json" id="shop">)(.*?)(</script>)', re.DOTALL)


def with_cards(page: str, opening: str, cards: Iterable[tuple[str, str]]) -> str:
    """The phone page with a way to the cards that lie beside it.

    Parameters
    ----------
    page : str
        The page that ``./shop page`` built.
    opening : str
        File of the page that opens the plan.
    cards : iterable of (str, str)
        Title and file of each part's cards.

    Raises
    ------
    DomainError
        It is not that page.
    """
    found = _SHOP.search(page)
    if found is None:
        raise DomainError("phone_page must be the page that ./shop page builds")
    listed = [{"title": title, "file": file} for title, file in (*cards, ("The whole plan", opening))]
    shop = json.dumps(json.loads(found[2]) | {"cards": listed}, ensure_ascii=False).replace("<", "\\u003c")
    return page[: found.start(2)] + shop + page[found.end(2) :]
