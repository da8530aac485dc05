// SPDX-License-Identifier: MIT
/// @file
/// Work done in pieces by several threads: each piece once, the first error told, a stop heard.
#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <stdexcept>
#include <string>
#include <vector>

#include <libflow/core/progress.hpp>
#include <libflow/study/in_pieces.hpp>

namespace libflow {
namespace in_pieces_test {

constexpr std::size_t things = 1003, in_one = 10;

TEST(InPieces, EveryThingOnceWhateverTheThreads) {
  for (const int threads : {1, 2, 5}) {
    std::vector<std::atomic<int>> times(things);
    std::atomic<int> workers{0};
    in_pieces(
        things, in_one, threads, {}, [&] { return ++workers; },
        [&](int, std::size_t first, std::size_t last) {
          EXPECT_LE(last - first, in_one);
          for (std::size_t i = first; i < last; ++i) ++times[i];
        });
    EXPECT_TRUE(std::all_of(times.begin(), times.end(), [](const auto& n) { return n == 1; })) << threads;
    EXPECT_EQ(workers, threads);
  }
}

TEST(InPieces, AnErrorOfTheWorkStopsItAndIsTold) {
  for (const int threads : {1, 3}) {
    std::atomic<std::size_t> done{0};
    const auto all = [&] {
      in_pieces(
          things, in_one, threads, {}, [] { return 0; },
          [&](int, std::size_t first, std::size_t last) {
            if (first >= 50) throw std::runtime_error("piece from 50 on");
            done += last - first;
          });
    };
    try {
      all();
      ADD_FAILURE() << "nothing told";
    } catch (const std::runtime_error& e) {
      EXPECT_EQ(std::string(e.what()), "piece from 50 on");
    }
    EXPECT_LE(done, 50U);
  }
  EXPECT_THROW(in_pieces(
                   things, in_one, 2, {}, []() -> int { throw std::runtime_error("no worker"); },
                   [](int, std::size_t, std::size_t) {}),
               std::runtime_error);
}

TEST(InPieces, AStopLeavesTheRest) {
  std::size_t done = 0;
  const Progress until_half = [](std::size_t n, std::size_t all) {
    EXPECT_EQ(all, things);
    return n < all / 2;
  };
  in_pieces(
      things, in_one, 1, until_half, [] { return 0; },
      [&](int, std::size_t first, std::size_t last) { done += last - first; });
  EXPECT_GE(done, things / 2);
  EXPECT_LE(done, things / 2 + in_one);
}

}  // namespace in_pieces_test
}  // namespace libflow
