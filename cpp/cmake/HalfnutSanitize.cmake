# Every target, GoogleTest included, is built with the sanitizers: half a program under one sees less.
if(HALFNUT_SANITIZE)
  add_compile_options(-fsanitize=${HALFNUT_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
  add_compile_definitions(_GLIBCXX_ASSERTIONS)
  add_link_options(-fsanitize=${HALFNUT_SANITIZE})
endif()
