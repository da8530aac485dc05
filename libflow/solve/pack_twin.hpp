// SPDX-License-Identifier: MIT
/// @file
/// Two packs that go through the same arithmetic in turns.
#pragma once

#include <libflow/solve/pack.hpp>

namespace libflow {

/// Which lanes of a Twin.
class TwinMask {
 public:
  /// The same in every lane.
  explicit TwinMask(bool everywhere = false) : low_(everywhere), high_(everywhere) {}
  /// Two packs side by side.
  TwinMask(const PackMask& low, const PackMask& high) : low_(low), high_(high) {}
  /// Copied pack by pack, in whole registers: what the compiler would write by itself goes through memory in pieces of
  /// 16 bytes, and the next operation waits for them (half as slow again on the 16-row bar, g++ 12, AVX2).
  TwinMask(const TwinMask& other) : low_(other.low_), high_(other.high_) {}
  /// As the copy.
  TwinMask& operator=(const TwinMask& other) { return low_ = other.low_, high_ = other.high_, *this; }
  ~TwinMask() = default;

  /// One lane.
  [[nodiscard]] bool operator[](int lane) const { return lane < Pack::width ? low_[lane] : high_[lane - Pack::width]; }
  /// True in some lane.
  [[nodiscard]] bool any() const { return (low_ || high_).any(); }
  /// True in every lane.
  [[nodiscard]] bool all() const { return (low_ && high_).all(); }
  /// `yes` in these lanes, `no` in the others.
  template <class T>
  [[nodiscard]] T select(const T& yes, const T& no) const {
    return T(low_.select(yes.low(), no.low()), high_.select(yes.high(), no.high()));
  }

  friend TwinMask operator&&(const TwinMask& a, const TwinMask& b) { return {a.low_ && b.low_, a.high_ && b.high_}; }
  friend TwinMask operator||(const TwinMask& a, const TwinMask& b) { return {a.low_ || b.low_, a.high_ || b.high_}; }
  friend TwinMask operator!(const TwinMask& a) { return {!a.low_, !a.high_}; }

 private:
  PackMask low_, high_;
};

/// Two packs as one number.
class Twin {
 public:
  static constexpr int width = 2 * Pack::width;  ///< number of lanes
  /// What a comparison gives.
  using Mask = TwinMask;

  Twin() = default;
  /// The same in every lane.
  Twin(double everywhere) : low_(everywhere), high_(everywhere) {}  // implicit, as Pack
  /// Two packs side by side.
  Twin(const Pack& low, const Pack& high) : low_(low), high_(high) {}
  /// Copied pack by pack, for the reason told at TwinMask.
  Twin(const Twin& other) : low_(other.low_), high_(other.high_) {}
  /// As the copy.
  Twin& operator=(const Twin& other) { return low_ = other.low_, high_ = other.high_, *this; }
  ~Twin() = default;
  /// From `width` doubles, aligned or not.
  [[nodiscard]] static Twin load(const double* from) { return {Pack::load(from), Pack::load(from + Pack::width)}; }
  /// Writes all lanes.
  /// @param to  room for `width` doubles
  void store(double* to) const {
    low_.store(to);
    high_.store(to + Pack::width);
  }

  /// The first half of the lanes.
  [[nodiscard]] const Pack& low() const { return low_; }
  /// The second half of the lanes.
  [[nodiscard]] const Pack& high() const { return high_; }
  /// One lane.
  [[nodiscard]] double operator[](int lane) const {
    return lane < Pack::width ? low_[lane] : high_[lane - Pack::width];
  }
  /// Changes one lane.
  void set(int lane, double value) {
    if (lane < Pack::width) {
      low_.set(lane, value);
    } else {
      high_.set(lane - Pack::width, value);
    }
  }

  /// Lane by lane.
  Twin& operator+=(const Twin& b) { return low_ += b.low_, high_ += b.high_, *this; }
  /// Lane by lane.
  Twin& operator-=(const Twin& b) { return low_ -= b.low_, high_ -= b.high_, *this; }
  /// Lane by lane.
  Twin& operator*=(const Twin& b) { return low_ *= b.low_, high_ *= b.high_, *this; }
  friend Twin operator+(const Twin& a, const Twin& b) { return {a.low_ + b.low_, a.high_ + b.high_}; }
  friend Twin operator-(const Twin& a, const Twin& b) { return {a.low_ - b.low_, a.high_ - b.high_}; }
  friend Twin operator*(const Twin& a, const Twin& b) { return {a.low_ * b.low_, a.high_ * b.high_}; }
  friend Twin operator/(const Twin& a, const Twin& b) { return {a.low_ / b.low_, a.high_ / b.high_}; }
  friend Twin operator-(const Twin& a) { return {-a.low_, -a.high_}; }
  friend Mask operator<(const Twin& a, const Twin& b) { return {a.low_ < b.low_, a.high_ < b.high_}; }
  friend Mask operator>(const Twin& a, const Twin& b) { return {a.low_ > b.low_, a.high_ > b.high_}; }
  friend Mask operator<=(const Twin& a, const Twin& b) { return {a.low_ <= b.low_, a.high_ <= b.high_}; }
  friend Mask operator>=(const Twin& a, const Twin& b) { return {a.low_ >= b.low_, a.high_ >= b.high_}; }

  friend Twin abs(const Twin& a) { return {abs(a.low_), abs(a.high_)}; }
  /// The larger of two; the second where one is not a number.
  friend Twin max(const Twin& a, const Twin& b) { return {max(a.low_, b.low_), max(a.high_, b.high_)}; }
  friend Twin sqrt(const Twin& a) { return {sqrt(a.low_), sqrt(a.high_)}; }
  friend Twin log(const Twin& a) { return {log(a.low_), log(a.high_)}; }
  friend Twin exp(const Twin& a) { return {exp(a.low_), exp(a.high_)}; }

 private:
  Pack low_, high_;
};

}  // namespace libflow
