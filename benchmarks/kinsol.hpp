// SPDX-License-Identifier: MIT
/// @file
/// An opponent: SUNDIALS KINSOL with KLU and an analytic Jacobian, in the formulations an able user would try.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <stdexcept>
#include <vector>

#include <kinsol/kinsol.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_klu.h>
#include <sunmatrix/sunmatrix_sparse.h>

#include <benchmarks/equations.hpp>
#include <benchmarks/nodal_newton.hpp>

namespace libflow::bench {

/// How a one-way edge is posed.
enum class Valve {
  open,               ///< its law for any flow: right only while it is open
  smallest,           ///< min(flow, what is missing to its threshold) = 0
  fischer_burmeister  ///< the smooth function with the same zeros; A. Fischer, Optimization 24 (1992) 269 (from memory)
};

struct KinsolOptions {
  bool line_search = false;
  Valve valve = Valve::open;
  long keep_jacobian = 1;  ///< steps that one Jacobian serves; 1: Newton
};

/// What all formulations share: memory of KINSOL, a sparse matrix of a fixed pattern, the call.
class Kinsol {
 public:
  Kinsol(const Kinsol&) = delete;
  Kinsol& operator=(const Kinsol&) = delete;
  virtual ~Kinsol() {
    KINFree(&memory_);
    SUNLinSolFree(linear_);
    SUNMatDestroy(matrix_);
    for (N_Vector v : {unknown_, unknown_scale_, misfit_scale_}) N_VDestroy(v);
    SUNContext_Free(&context_);
  }

  /// From the cold start. @return true when KINSOL says it is solved
  bool solve() {
    start(N_VGetArrayPointer(unknown_));
    const int flag =
        KINSol(memory_, unknown_, options_.line_search ? KIN_LINESEARCH : KIN_NONE, unknown_scale_, misfit_scale_);
    return flag == KIN_SUCCESS || flag == KIN_INITIAL_GUESS_OK;
  }
  [[nodiscard]] long iterations() const {
    long count = 0;
    KINGetNumNonlinSolvIters(memory_, &count);
    return count;
  }
  /// By edge [m3/s].
  [[nodiscard]] virtual const double* flow() const = 0;

 protected:
  Kinsol(const Equations& eq, const KinsolOptions& options) : eq_(&eq), options_(options) {}

  /// @param rows       by column, ascending
  /// @param tolerance  largest scaled misfit of an answer
  void prepare(const std::vector<std::vector<std::size_t>>& rows, double tolerance) {
    const std::size_t n = rows.size();
    begin_.assign(1, 0);
    for (const auto& column : rows) {
      for (const std::size_t i : column) row_.push_back(static_cast<sunindextype>(i));
      begin_.push_back(static_cast<sunindextype>(row_.size()));
    }
    const auto size = static_cast<sunindextype>(n);
    need(SUNContext_Create(nullptr, &context_) == 0);
    unknown_ = N_VNew_Serial(size, context_);
    unknown_scale_ = N_VNew_Serial(size, context_);
    misfit_scale_ = N_VNew_Serial(size, context_);
    matrix_ = SUNSparseMatrix(size, size, static_cast<sunindextype>(row_.size()), CSC_MAT, context_);
    linear_ = SUNLinSol_KLU(unknown_, matrix_, context_);
    memory_ = KINCreate(context_);
    need(unknown_ && unknown_scale_ && misfit_scale_ && matrix_ && linear_ && memory_);
    need(KINInit(memory_, &Kinsol::misfit_callback, unknown_) == KIN_SUCCESS);
    need(KINSetUserData(memory_, this) == KIN_SUCCESS);
    need(KINSetLinearSolver(memory_, linear_, matrix_) == KIN_SUCCESS);
    need(KINSetJacFn(memory_, &Kinsol::jacobian_callback) == KIN_SUCCESS);
    need(KINSetMaxSetupCalls(memory_, options_.keep_jacobian) == KIN_SUCCESS);
    need(KINSetFuncNormTol(memory_, tolerance) == KIN_SUCCESS);
    need(KINSetScaledStepTol(memory_, 1e-15) == KIN_SUCCESS);
    need(KINSetNumMaxIters(memory_, 200) == KIN_SUCCESS);
    need(KINSetMaxNewtonStep(memory_, 1e10) == KIN_SUCCESS);
    need(KINSetPrintLevel(memory_, 0) == KIN_SUCCESS);
    need(KINSetErrFile(memory_, nullptr) == KIN_SUCCESS);
    need(KINSetErrHandlerFn(
             memory_, [](int, const char*, const char*, char*, void*) {}, nullptr) == KIN_SUCCESS);
  }
  static void need(bool good) {
    if (!good) throw std::runtime_error("KINSOL could not be set up");
  }

  virtual void start(double* unknown) = 0;
  virtual void misfit(const double* unknown, double* f) = 0;
  virtual void jacobian(double* value) = 0;  ///< where misfit() was asked last

  const Equations* eq_;
  KinsolOptions options_;
  N_Vector unknown_ = nullptr, unknown_scale_ = nullptr, misfit_scale_ = nullptr;

 private:
  static int misfit_callback(N_Vector u, N_Vector f, void* self) {
    auto* k = static_cast<Kinsol*>(self);
    const double* x = N_VGetArrayPointer(u);
    k->last_.assign(x, x + NV_LENGTH_S(u));
    k->misfit(x, N_VGetArrayPointer(f));
    return 0;
  }
  static int jacobian_callback(N_Vector u, N_Vector, SUNMatrix j, void* self, N_Vector scratch, N_Vector) {
    auto* k = static_cast<Kinsol*>(self);
    // The misfit leaves the slopes behind. After a line search its last call may have been elsewhere.
    const double* x = N_VGetArrayPointer(u);
    if (!std::equal(k->last_.begin(), k->last_.end(), x)) misfit_callback(u, scratch, self);
    std::copy(k->begin_.begin(), k->begin_.end(), SUNSparseMatrix_IndexPointers(j));  // KINSOL has cleared the pattern
    std::copy(k->row_.begin(), k->row_.end(), SUNSparseMatrix_IndexValues(j));
    k->jacobian(SUNSparseMatrix_Data(j));
    return 0;
  }

  SUNContext context_ = nullptr;
  SUNMatrix matrix_ = nullptr;
  SUNLinearSolver linear_ = nullptr;
  void* memory_ = nullptr;
  std::vector<sunindextype> begin_, row_;
  std::vector<double> last_;
};

/// The mixed system: unknown flows, then unknown potentials; a law an edge, a balance a place.
class KinsolMixed final : public Kinsol {
 public:
  KinsolMixed(const Equations& eq, const KinsolOptions& options) : Kinsol(eq, options) {
    const std::size_t m = eq.edges(), n = eq.unknowns;
    std::vector<std::vector<std::size_t>> rows(m + n);
    for (std::size_t e = 0; e < m; ++e) {
      rows[e].push_back(e);
      for (const std::size_t end : {std::min(eq.a[e], eq.b[e]), std::max(eq.a[e], eq.b[e])}) {
        if (end >= n) continue;
        rows[e].push_back(m + end);
        rows[m + end].push_back(e);
      }
    }
    for (std::size_t i = 0; i < n; ++i) {
      for (const std::size_t e : rows[m + i]) sign_.push_back(eq.a[e] == i ? -1.0 : 1.0);
    }
    edge_at_.resize(n + 1, 0);
    for (std::size_t i = 0; i < n; ++i) {
      edge_at_[i + 1] = edge_at_[i] + rows[m + i].size();
      edge_.insert(edge_.end(), rows[m + i].begin(), rows[m + i].end());
    }
    by_flow_.resize(m);
    by_drop_.resize(m);
    prepare(rows, 1e-10);
    for (std::size_t k = 0; k < m + n; ++k) {
      const double flow = 1.0 / eq.flow_scale, pressure = 1.0 / eq.span;
      NV_Ith_S(unknown_scale_, k) = k < m ? flow : pressure;
      NV_Ith_S(misfit_scale_, k) = k < m ? pressure : flow;
    }
  }
  [[nodiscard]] const double* flow() const override { return NV_DATA_S(unknown_); }

 private:
  void start(double* u) override {
    std::fill(u, u + eq_->edges(), eq_->flow_scale);
    std::fill(u + eq_->edges(), u + eq_->edges() + eq_->unknowns, eq_->held.front());
  }

  /// Misfit of an edge, and its slopes by flow and by drop.
  double edge(std::size_t e, double q, const double* free, double& by_flow, double& by_drop) const {
    const Drop<double> d = eq_->law[e](q);
    const double miss = d.dp - (eq_->potential(eq_->a[e], free) - eq_->potential(eq_->b[e], free));
    by_flow = d.slope;
    by_drop = -1.0;
    if (options_.valve == Valve::open || eq_->law[e].passes == Passes::both) return miss;
    const double per_flow = eq_->span / eq_->flow_scale, x = q * per_flow;
    if (options_.valve == Valve::smallest) {
      if (x > miss) return miss;
      by_flow = per_flow;
      by_drop = 0.0;
      return x;
    }
    const double r = std::hypot(x, miss);
    const double dx = 1.0 - (r > 0.0 ? x / r : std::sqrt(0.5)), dw = 1.0 - (r > 0.0 ? miss / r : std::sqrt(0.5));
    by_flow = dx * per_flow + dw * d.slope;
    by_drop = -dw;
    return x + miss - r;
  }

  void misfit(const double* u, double* f) override {
    const std::size_t m = eq_->edges(), n = eq_->unknowns;
    std::fill(f + m, f + m + n, 0.0);
    for (std::size_t e = 0; e < m; ++e) {
      f[e] = edge(e, u[e], u + m, by_flow_[e], by_drop_[e]);
      if (eq_->a[e] < n) f[m + eq_->a[e]] -= u[e];
      if (eq_->b[e] < n) f[m + eq_->b[e]] += u[e];
    }
  }

  void jacobian(double* value) override {
    const std::size_t m = eq_->edges(), n = eq_->unknowns;
    for (std::size_t e = 0; e < m; ++e) {
      *value++ = by_flow_[e];
      const std::size_t a = eq_->a[e], b = eq_->b[e];
      if (std::min(a, b) < n) *value++ = a < b ? -1.0 : 1.0;
      if (std::max(a, b) < n) *value++ = a < b ? 1.0 : -1.0;
    }
    for (std::size_t k = 0; k < edge_at_[n]; ++k) *value++ = -sign_[k] * by_drop_[edge_[k]];
  }

  std::vector<double> sign_, by_flow_, by_drop_;
  std::vector<std::size_t> edge_at_, edge_;
};

/// Flows eliminated: unknown potentials only; each law is inverted by a safeguarded scalar Newton from its last flow.
/// A one-way edge passes nothing below its threshold. Started from equal pressures it needs ten times the steps or does
/// not converge, so it starts from the network made linear at one common flow.
class KinsolNodal final : public Kinsol {
 public:
  KinsolNodal(const Equations& eq, const KinsolOptions& options) : Kinsol(eq, options), first_(eq) {
    const std::size_t n = eq.unknowns;
    std::vector<std::vector<std::size_t>> rows(n);
    for (std::size_t i = 0; i < n; ++i) rows[i].push_back(i);
    for (std::size_t e = 0; e < eq.edges(); ++e) {
      if (eq.a[e] >= n || eq.b[e] >= n) continue;
      rows[eq.a[e]].push_back(eq.b[e]);
      rows[eq.b[e]].push_back(eq.a[e]);
    }
    std::vector<std::size_t> begin(n + 1, 0);
    for (std::size_t i = 0; i < n; ++i) {
      std::sort(rows[i].begin(), rows[i].end());
      rows[i].erase(std::unique(rows[i].begin(), rows[i].end()), rows[i].end());
      begin[i + 1] = begin[i] + rows[i].size();
    }
    entries_ = begin[n];
    const auto slot = [&](std::size_t i, std::size_t j) {
      const auto at = std::lower_bound(rows[j].begin(), rows[j].end(), i) - rows[j].begin();
      return begin[j] + static_cast<std::size_t>(at);
    };
    for (std::size_t e = 0; e < eq.edges(); ++e) {
      const std::size_t a = eq.a[e], b = eq.b[e];
      slot_.push_back({a < n ? slot(a, a) : nowhere, b < n ? slot(b, b) : nowhere,
                       a < n && b < n ? slot(a, b) : nowhere, a < n && b < n ? slot(b, a) : nowhere});
    }
    flow_.resize(eq.edges());
    conductance_.resize(eq.edges());
    // Flows of short wide hoses come from small differences of large potentials: below what rounding does to them no
    // step can reach, and KINSOL would call a good answer a failure.
    double conductance = 0.0;
    for (const Law& law : eq.law) conductance = std::max(conductance, 1.0 / law(eq.flow_scale).slope);
    const double rounding = std::numeric_limits<double>::epsilon() * eq.span * conductance / eq.flow_scale;
    prepare(rows, std::max(1e-10, 16.0 * rounding));
    N_VConst(1.0 / eq.span, unknown_scale_);
    N_VConst(1.0 / eq.flow_scale, misfit_scale_);
  }
  [[nodiscard]] const double* flow() const override { return flow_.data(); }

 private:
  static constexpr std::size_t nowhere = static_cast<std::size_t>(-1);
  struct Slots {
    std::size_t aa, bb, ab, ba;
  };

  void start(double* u) override {
    std::fill(flow_.begin(), flow_.end(), 0.0);
    first_.solve(1);
    std::copy(first_.potential().begin(), first_.potential().end(), u);
  }

  /// Flow at a drop, and its slope, from the last flow.
  void invert(std::size_t e, double drop) {
    const Law& law = eq_->law[e];
    double& q = flow_[e];
    if (options_.valve != Valve::open && law.passes == Passes::forward && drop <= law.threshold) {
      q = 0.0;
      conductance_[e] = 0.0;
      return;
    }
    double low = -HUGE_VAL, high = HUGE_VAL;
    if (!std::isfinite(q) || q == 0.0) q = std::copysign(eq_->flow_scale, drop - law.threshold);
    for (int i = 0; i < 100; ++i) {
      const Drop<double> d = law(q);
      const double miss = d.dp - drop;
      conductance_[e] = 1.0 / d.slope;
      (miss > 0.0 ? high : low) = q;
      const double step = -miss * conductance_[e];
      double next = q + step;
      // Quadratic: a step this small leaves an error of rounding.
      const bool done = std::abs(step) <= 1e-8 * std::abs(next);
      if (!done && !(next > low && next < high)) next = 0.5 * (low + high);
      q = next;
      if (done || miss == 0.0) return;
    }
  }

  void misfit(const double* u, double* f) override {
    const std::size_t n = eq_->unknowns;
    std::fill(f, f + n, 0.0);
    for (std::size_t e = 0; e < eq_->edges(); ++e) {
      const std::size_t a = eq_->a[e], b = eq_->b[e];
      invert(e, eq_->potential(a, u) - eq_->potential(b, u));
      if (a < n) f[a] -= flow_[e];
      if (b < n) f[b] += flow_[e];
    }
  }

  void jacobian(double* value) override {
    std::fill(value, value + entries_, 0.0);
    for (std::size_t e = 0; e < eq_->edges(); ++e) {
      const Slots& s = slot_[e];
      const double g = conductance_[e];
      if (s.aa != nowhere) value[s.aa] -= g;
      if (s.bb != nowhere) value[s.bb] -= g;
      if (s.ab == nowhere) continue;
      value[s.ab] += g;
      value[s.ba] += g;
    }
  }

  NodalNewton first_;
  std::size_t entries_ = 0;
  std::vector<Slots> slot_;
  std::vector<double> flow_, conductance_;
};

}  // namespace libflow::bench
