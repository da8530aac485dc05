// SPDX-License-Identifier: MIT
/// @file
/// Order of elimination for large looped networks: cut in two by few places, the halves again, the cuts last.
///
/// The work of an elimination grows with the 1.5th power of a plane network's size when its cuts are as short as they
/// can be. A cut is found on a small image of the network (places that hang together most become one) and is made
/// shorter on each finer image.
/// Sources: nested dissection: A. George, SIAM J. Numer. Anal. 10 (1973) 345; images and matching: G. Karypis, V.
/// Kumar, SIAM J. Sci. Comput. 20 (1998) 359; shortening: C. Fiduccia, R. Mattheyses, 19th Design Automation Conf.
/// (1982) 175, on places as in C. Ashcraft, J. Liu, SIAM J. Matrix Anal. Appl. 19 (1998) 325 (all from memory).
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <numeric>
#include <queue>
#include <utility>
#include <vector>

#include <libflow/solve/place_graph.hpp>

namespace libflow {

/// Cuts one graph in two.
class Bisection {
 public:
  /// Where a place lies.
  enum Side : signed char { left = 0, right = 1, cut = 2 };

  /// Side of each place; no place of one side is a neighbour of a place of the other.
  [[nodiscard]] static std::vector<Side> of(const PlaceGraph& graph) {
    std::vector<Image> images(1);
    images[0].graph = graph;
    images[0].weight.assign(graph.size(), 1);
    images[0].bond.assign(graph.next.size(), 1);
    constexpr std::size_t small = 100;
    while (images.back().graph.size() > small) {
      Image coarse = images.back().halved();
      if (10 * coarse.graph.size() > 9 * images.back().graph.size()) break;
      images.push_back(std::move(coarse));
    }
    Bisection best(images.back());
    best.begin();
    while (images.size() > 1) {
      const std::vector<int> image_of = std::move(images.back().image_of);
      const std::vector<Side> coarse = std::move(best.side_);
      images.pop_back();
      best = Bisection(images.back());
      for (std::size_t i = 0; i < image_of.size(); ++i) best.side_[i] = coarse[at(image_of[i])];
      best.weigh();
      best.shorten();
    }
    return best.side_;
  }

 private:
  static std::size_t at(int i) { return static_cast<std::size_t>(i); }

  /// A graph with weights, and which of its places each place of the finer graph became.
  struct Image {
    PlaceGraph graph;
    std::vector<int> weight, bond;  // by place; by entry of graph.next
    std::vector<int> image_of;

    /// Pairs of neighbours with the strongest bond become one place.
    [[nodiscard]] Image halved() const {
      const std::size_t n = graph.size();
      Image half;
      half.image_of.assign(n, -1);
      std::vector<int> order(n), first;  // first: one member of each new place
      std::iota(order.begin(), order.end(), 0);
      std::uint64_t dice = 0x9E3779B97F4A7C15ULL;  // any fixed numbers do; the same each time
      constexpr std::size_t near = 64;             // places stay near where they were, for the memory's sake
      for (std::size_t i = 0; i < n; ++i) {
        dice = dice * 6364136223846793005ULL + 1442695040888963407ULL;
        std::swap(order[i], order[i + (dice >> 33) % std::min(near, n - i)]);
      }
      std::vector<int> mate(n, -1);
      for (const int i : order) {
        if (mate[at(i)] >= 0) continue;
        int best = i, strongest = 0;
        for (int k = graph.begin[at(i)]; k < graph.begin[at(i) + 1]; ++k) {
          const int j = graph.next[at(k)];
          if (mate[at(j)] < 0 && bond[at(k)] > strongest) {
            strongest = bond[at(k)];
            best = j;
          }
        }
        mate[at(i)] = best;
        mate[at(best)] = i;
      }
      for (std::size_t i = 0; i < n; ++i) {
        if (half.image_of[i] >= 0) continue;
        half.image_of[i] = half.image_of[at(mate[i])] = static_cast<int>(first.size());
        first.push_back(static_cast<int>(i));
      }
      std::vector<int> entry(first.size(), -1);
      half.graph.next.reserve(graph.next.size());
      half.bond.reserve(graph.next.size());
      for (std::size_t c = 0; c < first.size(); ++c) {
        const int i = first[c], j = mate[at(i)], start = half.graph.begin.back();
        half.weight.push_back(weight[at(i)] + (j == i ? 0 : weight[at(j)]));
        for (const int member : {i, j}) {
          for (int k = graph.begin[at(member)]; k < graph.begin[at(member) + 1]; ++k) {
            const int other = half.image_of[at(graph.next[at(k)])];
            if (other == static_cast<int>(c)) continue;
            if (entry[at(other)] >= start) {
              half.bond[at(entry[at(other)])] += bond[at(k)];
            } else {
              entry[at(other)] = static_cast<int>(half.graph.next.size());
              half.graph.next.push_back(other);
              half.bond.push_back(bond[at(k)]);
            }
          }
          if (j == i) break;
        }
        half.graph.begin.push_back(static_cast<int>(half.graph.next.size()));
      }
      return half;
    }
  };

  explicit Bisection(const Image& image) : image_(&image), side_(image.graph.size(), right) {
    for (const int w : image.weight) all_ += w;
  }

  /// The best of a few first cuts: a half grown from one place.
  void begin() {
    const auto n = static_cast<int>(side_.size());
    constexpr int tries = 5;
    std::vector<Side> best;
    double least = std::numeric_limits<double>::infinity();
    for (int t = 0; t < std::min(tries, n); ++t) {
      grow(t * n / tries);
      shorten();
      const double score = cost();
      if (best.empty() || score < least) {
        least = score;
        best = side_;
      }
    }
    side_ = best;
    weigh();
  }

  void grow(int start) {
    std::fill(side_.begin(), side_.end(), right);
    std::vector<int> reached;
    std::vector<char> seen(side_.size(), 0);
    long long grown = 0;
    int next_start = 0;
    const auto reach = [&](int i) {
      seen[at(i)] = 1;
      reached.push_back(i);
    };
    reach(start);
    for (std::size_t k = 0; 2 * grown < all_; ++k) {
      if (k == reached.size()) {  // a group of its own is used up: go on in another
        while (seen[at(next_start)] != 0) ++next_start;
        reach(next_start);
      }
      const int i = reached[k];
      side_[at(i)] = left;
      grown += image_->weight[at(i)];
      image_->graph.each_neighbour(i, [&](int j) {
        if (seen[at(j)] == 0) reach(j);
      });
    }
    for (std::size_t i = 0; i < side_.size(); ++i) {
      if (side_[i] != right) continue;
      image_->graph.each_neighbour(static_cast<int>(i), [&](int j) {
        if (side_[at(j)] == left) side_[i] = cut;
      });
    }
    weigh();
  }

  void weigh() {
    sum_[left] = sum_[right] = sum_[cut] = 0;
    for (std::size_t i = 0; i < side_.size(); ++i) sum_[side_[i]] += image_->weight[i];
  }

  /// Weight of the cut over that of the smaller side, which must not be too small.
  [[nodiscard]] double cost() const {
    const auto smaller = static_cast<double>(std::min(sum_[left], sum_[right]));
    return static_cast<double>(sum_[cut]) / (smaller + 1e-9);
  }

  /// What the cut loses when a place of it goes to a side.
  [[nodiscard]] int gain(int i, Side to) const {
    int g = image_->weight[at(i)];
    const Side other = to == left ? right : left;
    image_->graph.each_neighbour(i, [&](int j) {
      if (side_[at(j)] == other) g -= image_->weight[at(j)];
    });
    return g;
  }

  struct Move {
    int gain, place;
    Side to;
    bool operator<(const Move& m) const { return gain != m.gain ? gain < m.gain : place > m.place; }
  };
  struct Undo {
    int place;
    Side was;
  };

  /// Moves places out of the cut, best first, also where that makes it longer for a while; keeps the best found.
  void shorten() {
    constexpr int passes = 3;
    constexpr std::size_t patience = 40;
    std::vector<char> moved(side_.size(), 0);
    std::vector<int> touched, in_cut;  // in_cut: all that are, and some that were
    std::vector<Undo> done;
    for (std::size_t i = 0; i < side_.size(); ++i) {
      if (side_[i] == cut) in_cut.push_back(static_cast<int>(i));
    }
    for (int pass = 0; pass < passes; ++pass) {
      std::priority_queue<Move> moves;
      const auto offer = [&](int i) {
        if (moved[at(i)] != 0 || side_[at(i)] != cut) return;
        for (const Side to : {left, right}) moves.push({gain(i, to), i, to});
      };
      for (const int i : in_cut) offer(i);
      const double before = cost();
      double best = before;
      std::size_t keep = 0;
      done.clear();
      touched.clear();
      std::size_t tried = 0;
      while (!moves.empty() && tried < patience) {
        const Move move = moves.top();
        moves.pop();
        const int i = move.place;
        if (moved[at(i)] != 0 || gain(i, move.to) != move.gain) continue;
        const Side other = move.to == left ? right : left;
        // Neither side may outgrow the other by half, unless it is the lighter one.
        if (5 * (sum_[move.to] + image_->weight[at(i)]) > 3 * all_ && sum_[move.to] >= sum_[other]) continue;
        change(i, move.to, done);
        moved[at(i)] = 1;
        touched.push_back(i);
        ++tried;
        image_->graph.each_neighbour(i, [&](int j) {
          if (side_[at(j)] == other) {
            change(j, cut, done);
            in_cut.push_back(j);
            image_->graph.each_neighbour(j, offer);
            offer(j);
          } else {
            offer(j);
          }
        });
        if (cost() < best) {
          best = cost();
          keep = done.size();
          tried = 0;
        }
      }
      while (done.size() > keep) {
        const Undo u = done.back();
        done.pop_back();
        sum_[side_[at(u.place)]] -= image_->weight[at(u.place)];
        sum_[u.was] += image_->weight[at(u.place)];
        side_[at(u.place)] = u.was;
      }
      for (const int i : touched) moved[at(i)] = 0;
      if (!(best < before)) return;
    }
  }
  void change(int i, Side to, std::vector<Undo>& done) {
    done.push_back({i, side_[at(i)]});
    sum_[side_[at(i)]] -= image_->weight[at(i)];
    sum_[to] += image_->weight[at(i)];
    side_[at(i)] = to;
  }

  const Image* image_;
  std::vector<Side> side_;
  long long all_ = 0, sum_[3] = {0, 0, 0};
};

/// The order: place eliminated k-th. Pieces of some hundred places are ordered by minimum degree.
[[nodiscard]] inline std::vector<int> nested_dissection(const PlaceGraph& graph) {
  constexpr std::size_t piece = 1000;
  struct Task {
    std::vector<int> members;
    std::size_t first;  ///< their places in the order begin here
  };
  std::vector<int> order(graph.size()), number(graph.size(), -1), everybody(graph.size());
  std::iota(everybody.begin(), everybody.end(), 0);
  std::vector<Task> tasks;
  tasks.push_back({std::move(everybody), 0});
  while (!tasks.empty()) {
    const Task task = std::move(tasks.back());
    tasks.pop_back();
    const PlaceGraph part = graph.within(task.members, number);
    const auto put = [&](const std::vector<int>& places, std::size_t first) {
      for (std::size_t k = 0; k < places.size(); ++k) order[first + k] = places[k];
    };
    std::vector<int> by_side[3];
    if (part.size() > piece) {
      const auto side = Bisection::of(part);
      for (std::size_t i = 0; i < side.size(); ++i) by_side[side[i]].push_back(task.members[i]);
    }
    if (by_side[0].empty() || by_side[1].empty()) {
      std::vector<int> sorted = part.minimum_degree();
      for (int& i : sorted) i = task.members[static_cast<std::size_t>(i)];
      put(sorted, task.first);
      continue;
    }
    const std::size_t middle = task.first + by_side[0].size(), last = middle + by_side[1].size();
    put(by_side[2], last);
    tasks.push_back({std::move(by_side[0]), task.first});
    tasks.push_back({std::move(by_side[1]), middle});
  }
  return order;
}

}  // namespace libflow
