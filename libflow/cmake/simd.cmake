# SPDX-License-Identifier: MIT
# The widest registers that the program, tests and benchmarks may use: packs of scenarios are as wide as these.
# Never passed on to users of the library, who compile with their own options.
set(LIBFLOW_SIMD "baseline" CACHE STRING "Registers for packs: baseline (any x86-64, SSE2), avx2, avx512")
set_property(CACHE LIBFLOW_SIMD PROPERTY STRINGS baseline avx2 avx512)

# Without fused multiply-add being put in by the compiler, a lane's digits depend on nothing but its own numbers.
set(LIBFLOW_SIMD_OPTIONS_baseline)
set(LIBFLOW_SIMD_OPTIONS_avx2 -march=x86-64-v3 -ffp-contract=off)
# g++ 12 finds uninitialised values in its own header of AVX-512 intrinsics.
set(LIBFLOW_SIMD_OPTIONS_avx512 -march=x86-64-v4 -ffp-contract=off -Wno-uninitialized)
if(NOT DEFINED LIBFLOW_SIMD_OPTIONS_${LIBFLOW_SIMD})
  if(NOT LIBFLOW_SIMD STREQUAL "baseline")
    message(FATAL_ERROR "LIBFLOW_SIMD is '${LIBFLOW_SIMD}'; allowed: baseline, avx2, avx512")
  endif()
endif()
add_compile_options(${LIBFLOW_SIMD_OPTIONS_${LIBFLOW_SIMD}})
