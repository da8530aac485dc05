// SPDX-License-Identifier: MIT
/// @file
/// Doubles side by side that go through the same arithmetic: one lane a scenario.
///
/// How many fit into a register follows from what the compiler may use (x86-64: 2, -march=x86-64-v3: 4, -v4: 8);
/// nothing here needs more than the build allows, so a plain build runs on any x86-64. A pack is two registers, so that
/// a processor that waits for one division or logarithm has another to work on. Arithmetic is written with the
/// compiler's vector types, which every formula of physics/ runs on as on a double; logarithms are Eigen's vectorised
/// ones.
///
/// A lane never sees its neighbours: every operation is lane by lane and a branch asks only whether any (or every) lane
/// wants it. Compile with -ffp-contract=off where fused multiply-add is allowed (LIBFLOW_SIMD does): otherwise the
/// compiler may round a sum differently on the two sides of such a branch, in the last digit.
#pragma once

#include <cstddef>
#include <cstring>

#include <Eigen/Core>
#if defined(__SSE2__)
#include <immintrin.h>
#endif

namespace libflow {

namespace pack_detail {

// The compiler's vector types (GNU C vector extensions, known to g++ and clang++), as wide as the build's registers.
#if defined(__AVX512F__) && defined(__AVX512DQ__)
inline constexpr int lanes = 8;
typedef double Doubles __attribute__((vector_size(64)));
typedef long long Integers __attribute__((vector_size(64)));
inline int bits(const Integers& x) { return _mm512_movepi64_mask(reinterpret_cast<__m512i>(x)); }
inline Doubles larger(const Doubles& a, const Doubles& b) { return _mm512_max_pd(a, b); }
#elif defined(__AVX__)
inline constexpr int lanes = 4;
typedef double Doubles __attribute__((vector_size(32)));
typedef long long Integers __attribute__((vector_size(32)));
inline int bits(const Integers& x) { return _mm256_movemask_pd(reinterpret_cast<__m256d>(x)); }
inline Doubles larger(const Doubles& a, const Doubles& b) { return _mm256_max_pd(a, b); }
#else
inline constexpr int lanes = 2;
typedef double Doubles __attribute__((vector_size(16)));
typedef long long Integers __attribute__((vector_size(16)));
#if defined(__SSE2__)
inline int bits(const Integers& x) { return _mm_movemask_pd(reinterpret_cast<__m128d>(x)); }
inline Doubles larger(const Doubles& a, const Doubles& b) { return _mm_max_pd(a, b); }
#else
inline int bits(const Integers& x) { return (x[0] != 0 ? 1 : 0) | (x[1] != 0 ? 2 : 0); }
inline Doubles larger(const Doubles& a, const Doubles& b) { return a > b ? a : b; }
#endif
#endif

}  // namespace pack_detail

/// Which lanes.
class PackMask {
 public:
  /// All lanes as the compiler's vector.
  using Integers = pack_detail::Integers;

  /// The same in every lane.
  explicit PackMask(bool everywhere = false) : lanes_(Integers{} - (everywhere ? 1LL : 0LL)) {}
  /// From the compiler's vector: 0 or -1 a lane.
  explicit PackMask(const Integers& lanes) : lanes_(lanes) {}

  /// One lane.
  [[nodiscard]] bool operator[](int lane) const { return lanes_[lane] != 0; }
  /// True in some lane.
  [[nodiscard]] bool any() const { return pack_detail::bits(lanes_) != 0; }
  /// True in every lane.
  [[nodiscard]] bool all() const { return pack_detail::bits(lanes_) == (1 << pack_detail::lanes) - 1; }
  /// `yes` in these lanes, `no` in the others.
  template <class P>
  [[nodiscard]] P select(const P& yes, const P& no) const {
    return P(lanes_ ? yes.lanes() : no.lanes());
  }

  friend PackMask operator&&(const PackMask& a, const PackMask& b) { return PackMask(a.lanes_ & b.lanes_); }
  friend PackMask operator||(const PackMask& a, const PackMask& b) { return PackMask(a.lanes_ | b.lanes_); }
  friend PackMask operator!(const PackMask& a) { return PackMask(~a.lanes_); }

 private:
  Integers lanes_;
};

/// Doubles side by side in one register.
class Pack {
 public:
  static constexpr int width = pack_detail::lanes;  ///< number of lanes
  /// All lanes as the compiler's vector.
  using Doubles = pack_detail::Doubles;
  /// What a comparison gives.
  using Mask = PackMask;

  Pack() : lanes_{} {}
  /// The same in every lane.
  Pack(double everywhere) : lanes_(Doubles{} + everywhere) {}  // implicit: formulas mix packs and constants
  /// From the compiler's vector.
  explicit Pack(const Doubles& lanes) : lanes_(lanes) {}
  /// From `width` doubles, aligned or not.
  [[nodiscard]] static Pack load(const double* from) {
    Pack p;
    std::memcpy(&p.lanes_, from, sizeof(Doubles));
    return p;
  }
  /// Writes all lanes.
  /// @param to  room for `width` doubles
  void store(double* to) const { std::memcpy(to, &lanes_, sizeof(Doubles)); }

  /// One lane.
  [[nodiscard]] double operator[](int lane) const { return lanes_[lane]; }
  /// Changes one lane.
  void set(int lane, double value) { lanes_[lane] = value; }
  /// All lanes as the compiler's vector.
  [[nodiscard]] const Doubles& lanes() const { return lanes_; }

  /// Lane by lane.
  Pack& operator+=(const Pack& b) { return lanes_ += b.lanes_, *this; }
  /// Lane by lane.
  Pack& operator-=(const Pack& b) { return lanes_ -= b.lanes_, *this; }
  /// Lane by lane.
  Pack& operator*=(const Pack& b) { return lanes_ *= b.lanes_, *this; }
  friend Pack operator+(const Pack& a, const Pack& b) { return Pack(a.lanes_ + b.lanes_); }
  friend Pack operator-(const Pack& a, const Pack& b) { return Pack(a.lanes_ - b.lanes_); }
  friend Pack operator*(const Pack& a, const Pack& b) { return Pack(a.lanes_ * b.lanes_); }
  friend Pack operator/(const Pack& a, const Pack& b) { return Pack(a.lanes_ / b.lanes_); }
  friend Pack operator-(const Pack& a) { return Pack(-a.lanes_); }
  friend Mask operator<(const Pack& a, const Pack& b) { return mask(a.lanes_ < b.lanes_); }
  friend Mask operator>(const Pack& a, const Pack& b) { return mask(a.lanes_ > b.lanes_); }
  friend Mask operator<=(const Pack& a, const Pack& b) { return mask(a.lanes_ <= b.lanes_); }
  friend Mask operator>=(const Pack& a, const Pack& b) { return mask(a.lanes_ >= b.lanes_); }

  friend Pack abs(const Pack& a) {
    using Integers = pack_detail::Integers;
    return Pack(reinterpret_cast<Doubles>(reinterpret_cast<Integers>(a.lanes_) & (Integers{} + 0x7fffffffffffffffLL)));
  }
  /// The larger of two; the second where one is not a number.
  friend Pack max(const Pack& a, const Pack& b) { return Pack(pack_detail::larger(a.lanes_, b.lanes_)); }
  friend Pack sqrt(const Pack& a) {
    return by_eigen(a, [](const auto& x) { return x.sqrt(); });
  }
  friend Pack log(const Pack& a) {
    return by_eigen(a, [](const auto& x) { return x.log(); });
  }
  friend Pack exp(const Pack& a) {
    return by_eigen(a, [](const auto& x) { return x.exp(); });
  }

 private:
  template <class V>
  static Mask mask(const V& v) {
    return Mask(reinterpret_cast<pack_detail::Integers>(v));
  }
  /// Eigen's vectorised functions.
  template <class F>
  static Pack by_eigen(const Pack& a, F f) {
    alignas(sizeof(Doubles)) double x[std::size_t{pack_detail::lanes}];
    a.store(x);
    Eigen::Map<Eigen::Array<double, pack_detail::lanes, 1>, Eigen::AlignedMax> lanes(x);
    lanes = f(lanes);
    return load(x);
  }

  Doubles lanes_;
};

}  // namespace libflow
