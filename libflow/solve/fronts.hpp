// SPDX-License-Identifier: MIT
/// @file
/// Star-mesh elimination of large looped networks, many places at a time.
///
/// A front (front_shape.hpp) is a dense block of conductances with a row for each of its places and a column for each
/// of their later neighbours, known potentials last. What a front's elimination adds among its later neighbours is a
/// product of two matrices without a negative entry, so that nothing cancels here either. Source: I. Duff, J. Reid, ACM
/// Trans. Math. Softw. 9 (1983) 302 (from memory).
#pragma once

#include <algorithm>
#include <concepts>
#include <cstddef>
#include <vector>

#include <Eigen/Core>

#include <libflow/physics/scalar.hpp>
#include <libflow/solve/front_shape.hpp>

namespace libflow {

/// The numeric part, on any scalar.
template <class S>
class Fronts {
 public:
  /// Places that are eliminated together.
  using Front = FrontShape::Front;

  /// @param shape  must outlive this object
  explicit Fronts(const FrontShape& shape) : shape_(&shape) {
    block.resize(shape.block_size());
    waiting_.resize(shape.waiting_size());
    scaled_.resize(shape.widest());
    std::size_t most = 0;
    for (const Front& f : shape.fronts()) most = std::max(most, at(f.columns()));
    near_.resize(most);
  }

  /// All blocks: before factor() the conductances (FrontShape::slot; known potentials in the last column), after it
  /// each place's shares. What is on and left of a block's diagonal is not used.
  std::vector<S> block;

  /// Puts the conductances to known potentials, by place, into the blocks.
  void add_known(const S* ground) {
    for (const Front& f : shape_->fronts()) {
      for (int i = 0; i < f.width; ++i) row(f, i)[f.width + f.count] += ground[f.first + i];
    }
  }

  /// @param inverse  out: by place, one over the sum of its conductances when it is eliminated; 0 where it has none
  void factor(S* inverse) {
    std::size_t top = 0;  // of what waits
    const auto& fronts = shape_->fronts();
    std::vector<int> open;  // fronts whose updates wait, the last on top
    for (int s = 0; s < static_cast<int>(fronts.size()); ++s) {
      const Front& f = fronts[at(s)];
      const std::size_t rows = at(f.count), own_size = rows * (rows + 1);
      S* const own = waiting_.data() + top;
      std::fill(own, own + own_size, S(0.0));
      std::size_t below = top;
      while (!open.empty() && fronts[at(open.back())].parent == s) {
        const Front& child = fronts[at(open.back())];
        below -= at(child.count) * at(child.count + 1);
        take(f, own, child, waiting_.data() + below);
        open.pop_back();
      }
      eliminate(f, own, inverse + f.first);
      if (rows == 0) {
        top = below;
        continue;
      }
      std::copy(own, own + own_size, waiting_.data() + below);
      top = below + own_size;
      open.push_back(s);
    }
  }

  /// First half of a solve: what flows in is handed on to later neighbours. @param x  by place
  void forward(S* x) {
    for (const Front& f : shape_->fronts()) {
      S* const sum = gather(f, x);
      for (int i = 0; i < f.width; ++i) {
        const S inflow = sum[i];
        add_row(sum + i + 1, row(f, i) + i + 1, inflow, f.width + f.count - i - 1);
      }
      std::copy(sum, sum + f.width, x + f.first);
      const int* const later = shape_->later().data() + f.rest;
      for (int k = 0; k < f.count; ++k) x[later[k]] = sum[f.width + k];
    }
  }
  /// Second half: potentials.
  void backward(S* x, const S* inverse) {
    const auto& fronts = shape_->fronts();
    for (std::size_t s = fronts.size(); s-- > 0;) {
      const Front& f = fronts[s];
      S* const known = gather(f, x);
      for (int i = f.width; i-- > 0;) {
        const S* const share = row(f, i);
        S sum = known[i] * inverse[f.first + i];
        for (int j = i + 1; j < f.width + f.count; ++j) sum += share[j] * known[j];
        known[i] = sum;
      }
      std::copy(known, known + f.width, x + f.first);
    }
  }

 private:
  static std::size_t at(int i) { return static_cast<std::size_t>(i); }
  using Matrix = Eigen::Matrix<S, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  using Block = Eigen::Map<Matrix, 0, Eigen::OuterStride<>>;
  using Row = Eigen::Map<Eigen::Array<S, 1, Eigen::Dynamic>>;

  [[nodiscard]] S* row(const Front& f, int i) { return block.data() + f.block + at(i) * at(f.columns()); }
  [[nodiscard]] S* gather(const Front& f, const S* x) {
    std::copy(x + f.first, x + f.first + f.width, near_.data());
    const int* const later = shape_->later().data() + f.rest;
    for (int k = 0; k < f.count; ++k) near_[at(f.width + k)] = x[later[k]];
    return near_.data();
  }

  /// Adds what a child's elimination left among its later neighbours.
  void take(const Front& f, S* own, const Front& child, const S* update) {
    const int* const into = shape_->into().data() + child.rest;
    const std::size_t stride = at(child.count + 1);
    for (int i = 0; i < child.count; ++i) {
      const S* const from = update + at(i) * stride;
      const bool inside = into[i] < f.width;
      S* const to = inside ? row(f, into[i]) : own + at(into[i] - f.width) * at(f.count + 1);
      const int column = inside ? 0 : f.width;  // that rows begin with
      for (int j = i + 1; j < child.count; ++j) to[into[j] - column] += from[j];
      to[f.width + f.count - column] += from[child.count];
    }
  }

  /// Adds share x conductances.
  static void add_row(S* to, const S* from, const S& share, int count) {
    if constexpr (std::same_as<S, double>) {
      Row(to, count) += share * Eigen::Map<const Eigen::Array<S, 1, Eigen::Dynamic>>(from, count);
    } else {
      for (int j = 0; j < count; ++j) to[j] += share * from[j];
    }
  }

  void eliminate(const Front& f, S* own, S* inverse) {
    constexpr int strip = 32;
    const int columns = f.columns();
    for (int first = 0; first < f.width; first += strip) {
      const int end = std::min(first + strip, f.width);
      for (int i = first; i < end; ++i) {
        S* const here = row(f, i);
        S sum = S(0.0);
        for (int j = i + 1; j < columns; ++j) sum += here[j];
        inverse[i] = physics::select<S>(sum > S(0.0), S(S(1.0) / sum), S(0.0));
        S* const share = scaled_.data() + at(i) * at(columns);
        for (int j = i + 1; j < columns; ++j) share[j] = here[j] * inverse[i];
        for (int j = i + 1; j < end; ++j) add_row(row(f, j) + j + 1, here + j + 1, share[j], columns - j - 1);
      }
      // The rows of this front behind the strip.
      add_product(f, first, end, end, f.width, {row(f, 0), columns, 0});
    }
    add_product(f, 0, f.width, f.width, f.width + f.count, {own, f.count + 1, f.width});
    std::copy(scaled_.begin(), scaled_.begin() + static_cast<std::ptrdiff_t>(at(f.width) * at(columns)), row(f, 0));
  }

  /// Rows of a front or of its update, counted as the front's columns are.
  struct Rows {
    S* begin;
    int stride;
    int first;  ///< number of the first row, and of the first column
    [[nodiscard]] S* at(int i, int j) const {
      return begin + static_cast<std::ptrdiff_t>(i - first) * stride + (j - first);
    }
  };

  /// Adds to rows [low, high) what the places [first, end) hand on, right of the diagonal.
  void add_product(const Front& f, int first, int end, int low, int high, const Rows& to) {
    if (low >= high) return;
    const int columns = f.columns();
    const S* const share = scaled_.data();
    const S* const whole = block.data() + f.block;
    if constexpr (std::same_as<S, double>) {
      constexpr int strip = 64;
      if ((high - low) * (end - first) > 64) {
        for (int i = low; i < high; i += strip) {
          const int rows = std::min(strip, high - i);
          using Const = Eigen::Map<const Matrix, 0, Eigen::OuterStride<>>;
          const Const s(share + at(first) * at(columns) + i, end - first, rows, Eigen::OuterStride<>(columns));
          const Const w(whole + at(first) * at(columns) + i, end - first, columns - i, Eigen::OuterStride<>(columns));
          Block(to.at(i, i), rows, columns - i, Eigen::OuterStride<>(to.stride)).noalias() += s.transpose() * w;
        }
        return;
      }
    }
    for (int p = first; p < end; ++p) {
      const S* const s = share + at(p) * at(columns);
      const S* const w = whole + at(p) * at(columns);
      for (int i = low; i < high; ++i) add_row(to.at(i, i + 1), w + i + 1, s[i], columns - i - 1);
    }
  }

  const FrontShape* shape_;
  std::vector<S> waiting_, scaled_, near_;
};

}  // namespace libflow
