// Pressing a knurl in: level-1 formulas.

#include "bind.hpp"
#include "halfnut/knurls/rolling.hpp"
#include "numpy_util.hpp"

namespace halfnut::bind {

void bind_knurling(pybind11::module_& module) {
    level1<knurls::KnurlContact>(module, "Length of the arc on which a knurl wheel touches the work, mm.");
    level1<knurls::KnurlForce>(module, "Force that presses one knurl wheel into the work, N.");
}

}  // namespace halfnut::bind
