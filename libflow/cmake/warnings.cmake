# SPDX-License-Identifier: MIT
# Warnings for the code in this tree.
set(LIBFLOW_WARNING_OPTIONS -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # g++ 12 warns wrongly of uninitialised values when it copies a std::optional that holds none.
  list(APPEND LIBFLOW_WARNING_OPTIONS -Wno-maybe-uninitialized)
endif()
if(LIBFLOW_WERROR)
  list(APPEND LIBFLOW_WARNING_OPTIONS -Werror)
endif()
