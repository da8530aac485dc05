// SPDX-License-Identifier: MIT
/// @file
/// An opponent: plain Newton on Eigen. Flows are taken out of each linear step, so that what is factored is the
/// symmetric positive definite matrix of the places. One-way parts are taken as open.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>

#include <benchmarks/equations.hpp>

namespace libflow::bench {

class NodalNewton {
 public:
  using Matrix = Eigen::SparseMatrix<double, Eigen::ColMajor, int>;

  /// Pattern, places of the entries, symbolic factorisation: once for a network.
  explicit NodalNewton(const Equations& eq) : eq_(&eq), n_(static_cast<int>(eq.unknowns)), matrix_(n_, n_) {
    std::vector<Eigen::Triplet<double>> pattern;
    for (int i = 0; i < n_; ++i) pattern.emplace_back(i, i, 1.0);
    for (std::size_t e = 0; e < eq.edges(); ++e) {
      if (eq.a[e] < eq.unknowns && eq.b[e] < eq.unknowns) pattern.emplace_back(row(e), column(e), -1.0);
    }
    matrix_.setFromTriplets(pattern.begin(), pattern.end());
    for (std::size_t e = 0; e < eq.edges(); ++e) {
      const bool a = eq.a[e] < eq.unknowns, b = eq.b[e] < eq.unknowns;
      slot_.push_back({a ? place_of(static_cast<int>(eq.a[e]), static_cast<int>(eq.a[e])) : nowhere,
                       b ? place_of(static_cast<int>(eq.b[e]), static_cast<int>(eq.b[e])) : nowhere,
                       a && b ? place_of(row(e), column(e)) : nowhere});
    }
    solver_.analyzePattern(matrix_);
    flow.resize(eq.edges());
    drop_.resize(eq.edges());
    right_.resize(n_);
    potential_.resize(n_);
  }

  std::vector<double> flow;  ///< answer, by edge
  int iterations = 0;
  [[nodiscard]] const Eigen::VectorXd& potential() const { return potential_; }  ///< by unknown place [Pa]

  /// From one common flow in every edge. @return true when every law holds to 1e-10 of the span
  bool solve(int most_iterations = 100) {
    const Equations& eq = *eq_;
    std::fill(flow.begin(), flow.end(), eq.flow_scale);
    potential_.setZero();
    for (iterations = 0; iterations < most_iterations; ++iterations) {
      double worst = 0.0;
      for (std::size_t e = 0; e < eq.edges(); ++e) {
        drop_[e] = eq.law[e](flow[e]);
        worst = std::max(worst, std::abs(across(e) - drop_[e].dp));
      }
      if (iterations > 0 && worst <= 1e-10 * eq.span) return true;
      std::fill(matrix_.valuePtr(), matrix_.valuePtr() + matrix_.nonZeros(), 0.0);
      right_.setZero();
      for (std::size_t e = 0; e < eq.edges(); ++e) {
        const double g = 1.0 / drop_[e].slope, base = flow[e] - g * drop_[e].dp;
        const auto& [aa, bb, ab] = slot_[e];
        const auto a = static_cast<Eigen::Index>(eq.a[e]), b = static_cast<Eigen::Index>(eq.b[e]);
        if (aa != nowhere) {
          matrix_.valuePtr()[aa] += g;
          right_[a] -= base - (bb == nowhere ? g * eq.held[eq.b[e] - eq.unknowns] : 0.0);
        }
        if (bb != nowhere) {
          matrix_.valuePtr()[bb] += g;
          right_[b] += base + (aa == nowhere ? g * eq.held[eq.a[e] - eq.unknowns] : 0.0);
        }
        if (ab != nowhere) matrix_.valuePtr()[ab] -= g;
      }
      solver_.factorize(matrix_);
      if (solver_.info() != Eigen::Success) return false;
      potential_ = solver_.solve(right_);
      for (std::size_t e = 0; e < eq.edges(); ++e) flow[e] += (across(e) - drop_[e].dp) / drop_[e].slope;
    }
    return false;
  }

 private:
  static constexpr Eigen::Index nowhere = -1;

  [[nodiscard]] int row(std::size_t e) const { return static_cast<int>(std::max(eq_->a[e], eq_->b[e])); }
  [[nodiscard]] int column(std::size_t e) const { return static_cast<int>(std::min(eq_->a[e], eq_->b[e])); }
  [[nodiscard]] Eigen::Index place_of(int i, int j) { return &matrix_.coeffRef(i, j) - matrix_.valuePtr(); }
  [[nodiscard]] double across(std::size_t e) const {
    return eq_->potential(eq_->a[e], potential_.data()) - eq_->potential(eq_->b[e], potential_.data());
  }

  const Equations* eq_;
  int n_;
  Matrix matrix_;
  std::vector<std::array<Eigen::Index, 3>> slot_;
  Eigen::SimplicialLDLT<Matrix, Eigen::Lower> solver_;
  std::vector<Drop<double>> drop_;
  Eigen::VectorXd right_, potential_;
};

}  // namespace libflow::bench
