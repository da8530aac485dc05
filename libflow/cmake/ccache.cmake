# SPDX-License-Identifier: MIT
# Repeated builds are quicker where ccache is installed; nothing needs it.
find_program(LIBFLOW_CCACHE ccache)
mark_as_advanced(LIBFLOW_CCACHE)
if(LIBFLOW_CCACHE AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${LIBFLOW_CCACHE})
endif()
