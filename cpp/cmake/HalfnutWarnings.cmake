# One interface target that every target of Halfnut links privately: warnings, and floating point that
# gives the same bits whatever the compiler's vectoriser does.
add_library(halfnut_warnings INTERFACE)
target_compile_options(halfnut_warnings INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wshadow
  -ffp-contract=off -fno-math-errno -fno-trapping-math
  $<$<BOOL:${HALFNUT_WERROR}>:-Werror>)
