// SPDX-License-Identifier: MIT
/// @file
/// Any bytes as a table of caught cups.
#include <cstddef>
#include <cstdint>

#include <libflow/file/catch_csv.hpp>
#include <tests/fuzz/target.hpp>

using namespace libflow;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  try {
    for (const CatchReading& cup : parse_catch(fuzz::text(data, size), "any.csv")) {
      fuzz::promise(cup.row >= 1 && cup.repeat >= 1, "rows and repeats count from 1");
      fuzz::promise(catch_volume.contains(cup.volume), "a cup holds what a cup can hold");
    }
  } catch (const InputError& error) {
    fuzz::promise(error.where().rfind("any.csv", 0) == 0, "an error names the file");
    fuzz::promise(!error.what_is_wrong().empty(), "an error says what is wrong");
  }
  return 0;
}
