"""How likely two threads are to have some clearance; the question `fit` answers whether they screw together."""

from __future__ import annotations

from typing import TYPE_CHECKING

from halfnut import _core
from halfnut.core.arrays import ArrayLike, NDArray, np
from halfnut.core.carriers import numbers
from halfnut.core.catalogue import active
from halfnut.core.questions import placed, read

if TYPE_CHECKING:
    from halfnut.core.given import LengthLike
    from halfnut.material.coatings import BuildUpLike
    from halfnut.threads.standard import PartLike

__all__ = ["clearance_chances"]


def clearance_chances(
    external: PartLike,
    internal: PartLike,
    clearances_mm: ArrayLike,
    *,
    build_up_external: BuildUpLike | None = None,
    build_up_internal: BuildUpLike | None = None,
    external_pitch: LengthLike | None = None,
    internal_pitch: LengthLike | None = None,
    tolerance_over_sigma: float = 6.0,
    mean_shift: float = 0.0,
) -> NDArray[np.float64]:
    """Chance that a pair has less clearance at the pitch diameter than each of some values: its distribution.

    Parameters
    ----------
    external, internal, build_up_external, build_up_internal, external_pitch, internal_pitch : optional
        As for `fit`.
    clearances_mm : array_like
        Clearances asked about, mm; below 0 an interference.
    tolerance_over_sigma, mean_shift : float
        As for `fit`.

    Returns
    -------
    ndarray
        From 0 to 1, for each clearance.

    Raises
    ------
    DomainError
        A clearance that is not finite, or a size out of its range.

    >>> clearance_chances("M10-6g", "M10-6H", [0.0, 0.188, 0.4]).round(3).tolist()
    [0.0, 0.5, 1.0]
    """
    given = placed(
        "fit",
        external=external,
        internal=internal,
        build_up_external=build_up_external,
        build_up_internal=build_up_internal,
        external_pitch=external_pitch,
        internal_pitch=internal_pitch,
        tolerance_over_sigma=tolerance_over_sigma,
        mean_shift=mean_shift,
    )
    asked = numbers(clearances_mm, "mm", "clearances_mm")
    chances = _core.fit_chances(read("fit", given), asked.ravel(), active())
    return chances.reshape(asked.shape)
