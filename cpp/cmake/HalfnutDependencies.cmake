# fmt makes message text. It is part of the library and no part of the installed interface: one file of ours
# compiles it (its headers alone are needed). The system's package comes first; the fetched one is for
# machines without it (it is not exercised in Halfnut's own tests, whose presets keep FetchContent disconnected).
find_package(fmt QUIET)
if(NOT fmt_FOUND)
  include(FetchContent)
  FetchContent_Declare(fmt URL https://github.com/fmtlib/fmt/releases/download/9.1.0/fmt-9.1.0.zip)
  FetchContent_MakeAvailable(fmt)
  set(fmt_VERSION 9.1.0)
endif()
add_library(halfnut_fmt INTERFACE)
if(fmt_VERSION VERSION_LESS 10)
  set(HALFNUT_FMT_SOURCE src/core/fmt.cpp)
  target_include_directories(halfnut_fmt SYSTEM INTERFACE $<TARGET_PROPERTY:fmt::fmt-header-only,INTERFACE_INCLUDE_DIRECTORIES>)
else()  # what has to be compiled differs from version to version
  target_link_libraries(halfnut_fmt INTERFACE fmt::fmt-header-only)
endif()
