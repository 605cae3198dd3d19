# fmt makes message text. It is linked header-only and privately, so it is no part of the installed
# interface. The system's package comes first; the fetched one is for machines without it (it is not
# exercised in Halfnut's own tests, whose presets keep FetchContent disconnected).
find_package(fmt QUIET)
if(NOT fmt_FOUND)
  include(FetchContent)
  FetchContent_Declare(fmt URL https://github.com/fmtlib/fmt/releases/download/9.1.0/fmt-9.1.0.zip)
  FetchContent_MakeAvailable(fmt)
endif()
