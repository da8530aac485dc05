// SPDX-License-Identifier: MIT
/// @file
/// Points that fill a cube evenly and yet at random: Sobol's sequence, scrambled.
///
/// The first 2^m points have exactly one in every of 2^m equal slices of every axis, scrambled or not. Each scrambled
/// replicate is evenly filled and, by itself, uniform at random, so that a mean over it has no bias and the spread over
/// independent replicates is its sampling error.
/// Sources: I. M. Sobol', USSR Comput. Math. Math. Phys. 7 (1967) 86, by Boost.Random with its own table of direction
/// numbers; scrambling: A. B. Owen, Monte Carlo and Quasi-Monte Carlo Methods in Scientific Computing (1995) 299, by
/// the hash of S. Laine, T. Karras, Computer Graphics Forum 30 (2011) 1265, as B. Burley, J. Computer Graphics
/// Techniques 9 (4) (2020) 1, has it (constants from memory: the test shows that it is a nested scrambling, whatever
/// they are).
#pragma once

#include <bit>
#include <cstddef>
#include <cstdint>

#include <Eigen/Core>
#include <boost/random/sobol.hpp>
#include <fmt/core.h>

#include <libflow/core/error.hpp>
#include <libflow/core/range.hpp>

namespace libflow {

namespace scrambled_detail {

/// Well mixed bits of a number. Source: G. L. Steele, D. Lea, C. H. Flood, OOPSLA 2014, splitmix64 (from memory).
constexpr std::uint64_t mixed(std::uint64_t z) {
  z += 0x9e3779b97f4a7c15U;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  return z ^ (z >> 31U);
}

constexpr std::uint32_t reversed_bits(std::uint32_t x) {
  x = (x >> 16U) | (x << 16U);
  x = ((x & 0x00ff00ffU) << 8U) | ((x & 0xff00ff00U) >> 8U);
  x = ((x & 0x0f0f0f0fU) << 4U) | ((x & 0xf0f0f0f0U) >> 4U);
  x = ((x & 0x33333333U) << 2U) | ((x & 0xccccccccU) >> 2U);
  return ((x & 0x55555555U) << 1U) | ((x & 0xaaaaaaaaU) >> 1U);
}

/// Nested scrambling: whether a bit flips depends on the bits above it and the key only. On the reversed number that
/// is: on the bits below it, which is how sums and products by even numbers carry.
constexpr std::uint32_t scrambled(std::uint32_t x, std::uint32_t key) {
  x = reversed_bits(x);
  x += key;
  x ^= x * 0x6c50b47cU;
  x ^= x * 0xb82f1e52U;
  x ^= x * 0xc7afe638U;
  x ^= x * 0x8d22f6e6U;
  return reversed_bits(x);
}

}  // namespace scrambled_detail

/// Scrambled points of one number of dimensions. The same seed gives the same points on every machine.
class ScrambledPoints {
 public:
  static constexpr std::size_t most_dimensions = 3667;    ///< of Boost's table
  static constexpr std::size_t most_points = 1UL << 31U;  ///< of one replicate

  /// @throws InputError for more dimensions than there are
  ScrambledPoints(std::size_t dimensions, std::uint64_t seed) : dimensions_(dimensions), seed_(seed) {
    require_in("scrambled points, dimensions", static_cast<double>(dimensions),
               {1.0, static_cast<double>(most_dimensions)}, "");
  }

  /// Numbers a point.
  [[nodiscard]] std::size_t dimensions() const { return dimensions_; }

  /// Points `first` to `first + count` of a replicate: a row a point, each number more than 0 and less than 1.
  [[nodiscard]] Eigen::ArrayXXd points(std::size_t replicate, std::size_t first, std::size_t count) const {
    boost::random::sobol_engine<std::uint32_t, 32> engine(dimensions_);
    Eigen::ArrayXXd u(static_cast<Eigen::Index>(count), static_cast<Eigen::Index>(dimensions_));
    Eigen::Array<std::uint32_t, Eigen::Dynamic, 1> key(static_cast<Eigen::Index>(dimensions_));
    for (Eigen::Index d = 0; d < key.size(); ++d) {
      using scrambled_detail::mixed;
      key[d] =
          static_cast<std::uint32_t>(mixed(mixed(mixed(seed_) + replicate) + static_cast<std::uint64_t>(d)) >> 32U);
    }
    // Boost's sequence leaves out its first point, which is zero in every coordinate.
    if (first > 1) engine.seed(static_cast<std::uint32_t>(first - 1));
    for (Eigen::Index i = 0; i < u.rows(); ++i) {
      const bool zero = first == 0 && i == 0;
      for (Eigen::Index d = 0; d < u.cols(); ++d) {
        const std::uint32_t x = scrambled_detail::scrambled(zero ? 0U : engine(), key[d]);
        u(i, d) = (static_cast<double>(x) + 0.5) * 0x1p-32;
      }
    }
    return u;
  }

 private:
  std::size_t dimensions_;
  std::uint64_t seed_;
};

}  // namespace libflow
