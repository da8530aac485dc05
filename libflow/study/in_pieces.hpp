// SPDX-License-Identifier: MIT
/// @file
/// Work in pieces on several threads, with progress and without losing what is done.
#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <exception>
#include <mutex>
#include <thread>

#include <boost/asio/post.hpp>
#include <boost/asio/thread_pool.hpp>

#include <libflow/core/progress.hpp>

namespace libflow {

/// Does `work(worker, first, last)` for [0, count) in pieces. Which thread does a piece is left to chance.
/// @param piece     numbers in a piece, > 0
/// @param threads   0: one a core of this machine; the calling thread is one of them
/// @param progress  called from the calling thread; when it stops the work, pieces begun are still finished
/// @param worker    makes what a thread works with
/// @throws what `worker` or `work` throws first; the other threads finish their pieces before
template <class MakeWorker, class Work>
void in_pieces(std::size_t count, std::size_t piece, int threads, const Progress& progress, const MakeWorker& worker,
               const Work& work) {
  const std::size_t pieces = (count + piece - 1) / piece;
  std::size_t hands = threads == 0 ? std::thread::hardware_concurrency() : static_cast<std::size_t>(threads);
  hands = std::max<std::size_t>(1, std::min(hands, pieces));
  std::atomic<std::size_t> next{0}, done{0};
  std::atomic<bool> stop{false};
  std::exception_ptr error;
  std::mutex error_lock;
  const auto labour = [&](bool tells) {
    try {
      auto mine = worker();
      while (!stop) {
        const std::size_t k = next++;
        if (k >= pieces) return;
        const std::size_t first = k * piece, last = std::min(count, first + piece);
        work(mine, first, last);
        done += last - first;
        if (tells && !go_on(progress, done, count)) stop = true;
      }
    } catch (...) {
      const std::lock_guard lock(error_lock);
      if (!error) error = std::current_exception();
      stop = true;
    }
  };
  boost::asio::thread_pool pool(std::max<std::size_t>(1, hands - 1));
  for (std::size_t i = 1; i < hands; ++i) boost::asio::post(pool, [&labour] { labour(false); });
  labour(true);
  pool.join();
  if (error) std::rethrow_exception(error);
}

}  // namespace libflow
