# SPDX-License-Identifier: MIT
# Builds and runs the project in consumer/ in a folder of its own, away from this tree.
#   way=installed     against an installed libflow that was moved after it was installed
#   way=subdirectory  with libflow's sources as part of the project
cmake_minimum_required(VERSION 3.25)
set(temporary_root /tmp)
if(DEFINED ENV{TMPDIR})
  set(temporary_root $ENV{TMPDIR})
endif()
string(RANDOM LENGTH 12 unique)
set(work "${temporary_root}/libflow package ${unique}")  # with spaces on purpose
file(MAKE_DIRECTORY "${work}")

# Runs a command and leaves what it printed in `output`; ends the test when the command fails.
function(run)
  execute_process(COMMAND ${ARGV} RESULT_VARIABLE result OUTPUT_VARIABLE printed ERROR_VARIABLE printed)
  if(NOT result EQUAL 0)
    file(REMOVE_RECURSE "${work}")
    list(JOIN ARGV " " command)
    message(FATAL_ERROR "${command}\nended with ${result}:\n${printed}")
  endif()
  set(output "${printed}" PARENT_SCOPE)
endfunction()

function(expect text pattern)
  if(NOT text MATCHES "${pattern}")
    file(REMOVE_RECURSE "${work}")
    message(FATAL_ERROR "expected '${pattern}' in:\n${text}")
  endif()
endfunction()

file(COPY ${CMAKE_CURRENT_LIST_DIR}/consumer DESTINATION "${work}")
set(how)
if(way STREQUAL "installed")
  run(${CMAKE_COMMAND} --install ${build_dir} --config ${config} --prefix "${work}/first place")
  file(RENAME "${work}/first place" "${work}/second place")
  set(how "-DCMAKE_PREFIX_PATH=${work}/second place")
  if(with_program)
    run("${work}/second place/bin/libflow" --version)
    string(REPLACE "." "\\." version_pattern "${version}")
    expect("${output}" "${version_pattern}")
  endif()
elseif(way STREQUAL "subdirectory")
  set(how "-DLIBFLOW_SOURCE_DIR=${source_dir}")
else()
  message(FATAL_ERROR "way is '${way}'; allowed: installed, subdirectory")
endif()

run(${CMAKE_COMMAND} -S "${work}/consumer" -B "${work}/build" -G ${generator} -DCMAKE_BUILD_TYPE=Debug
  -DCMAKE_CXX_COMPILER=${compiler} "-DCMAKE_CXX_FLAGS=${flags}" ${how})
run(${CMAKE_COMMAND} --build "${work}/build" --target consumer)
run("${work}/build/consumer")
expect("${output}" "version ${version}")
expect("${output}" "drop [1-9][0-9]* Pa")
if(way STREQUAL "installed")
  expect("${output}" "variation 0.7071")
endif()
file(REMOVE_RECURSE "${work}")
