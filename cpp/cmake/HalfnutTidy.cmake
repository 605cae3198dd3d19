# halfnut_tidy(<target>): add what is written by hand of the target's sources to the target `tidy`; those that the target
# compiles together are read together, since most of the time goes to headers. Each has its stamp, so that only what
# changed is read again (a header counts as a change of every file). CMAKE_CXX_CLANG_TIDY would run with each compilation
# and read the tests too.
if(HALFNUT_TIDY)
  find_program(HALFNUT_CLANG_TIDY clang-tidy REQUIRED)
  add_custom_target(tidy)
  file(GLOB_RECURSE HALFNUT_TIDY_HEADERS CONFIGURE_DEPENDS
    "${PROJECT_SOURCE_DIR}/cpp/include/*.hpp" "${PROJECT_SOURCE_DIR}/cpp/src/*.hpp" "${PROJECT_SOURCE_DIR}/bindings/*.hpp")
endif()

function(halfnut_tidy target)
  if(NOT HALFNUT_TIDY)
    return()
  endif()
  get_target_property(sources ${target} SOURCES)
  list(FILTER sources INCLUDE REGEX "\\.cpp$")
  list(FILTER sources EXCLUDE REGEX "/generated/")
  set(read)
  foreach(source IN LISTS sources)
    cmake_path(ABSOLUTE_PATH source NORMALIZE)
    set(name "${source}")
    get_source_file_property(group "${source}" UNITY_GROUP)
    if(group)
      set(name "${CMAKE_CURRENT_BINARY_DIR}/CMakeFiles/${target}.dir/Unity/unity_${group}_cxx.cxx")
    endif()
    list(APPEND read "${name}")
    list(APPEND "together_${name}" "${source}")
  endforeach()
  list(REMOVE_DUPLICATES read)
  set(stamps)
  foreach(source IN LISTS read)
    cmake_path(IS_PREFIX PROJECT_BINARY_DIR "${source}" made)
    set(base "${PROJECT_SOURCE_DIR}")
    if(made)
      set(base "${PROJECT_BINARY_DIR}")
    endif()
    cmake_path(RELATIVE_PATH source BASE_DIRECTORY "${base}" OUTPUT_VARIABLE name)
    set(stamp "${PROJECT_BINARY_DIR}/tidy/${name}.stamp")
    cmake_path(GET stamp PARENT_PATH folder)
    add_custom_command(
      OUTPUT "${stamp}"
      COMMAND "${HALFNUT_CLANG_TIDY}" --quiet -p "${PROJECT_BINARY_DIR}" "${source}"
      COMMAND "${CMAKE_COMMAND}" -E make_directory "${folder}"
      COMMAND "${CMAKE_COMMAND}" -E touch "${stamp}"
      DEPENDS ${together_${source}} ${HALFNUT_TIDY_HEADERS} "${PROJECT_SOURCE_DIR}/.clang-tidy" halfnut_tables
      COMMENT "Reading ${name}"
      VERBATIM)
    list(APPEND stamps "${stamp}")
  endforeach()
  add_custom_target(tidy_${target} DEPENDS ${stamps})
  add_dependencies(tidy tidy_${target})
endfunction()
