"""NumPy, loaded when an array is first made or read: answers about one part need none."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

__all__ = ["ArrayLike", "NDArray", "np"]

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray
else:
    ArrayLike = NDArray = None  # names in annotations only

    class _Numpy:
        def __getattr__(self, name: str) -> Any:
            import numpy

            value = self.__dict__[name] = getattr(numpy, name)
            return value

    np = _Numpy()
