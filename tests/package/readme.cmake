# SPDX-License-Identifier: MIT
# README.md shows a program and what it prints: both must be what is built and printed now.
# cmake -D readme=README.md -D source=two_rows.cpp -D program=two_rows -P readme.cmake
file(READ ${readme} text)
file(READ ${source} code)
execute_process(COMMAND ${program} OUTPUT_VARIABLE output RESULT_VARIABLE status)
if(NOT status EQUAL 0)
  message(FATAL_ERROR "${program} ended with ${status}")
endif()
string(REGEX REPLACE "^// SPDX[^\n]*\n" "" code "${code}")
foreach(part code output)
  string(FIND "${text}" "${${part}}" at)
  if(at EQUAL -1)
    message(FATAL_ERROR "README.md does not show this ${part} as it is now:\n${${part}}")
  endif()
endforeach()
