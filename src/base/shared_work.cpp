#include "base/shared_work.h"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <system_error>
#include <thread>
#include <vector>

namespace lensward {
namespace {

// The C library grows a new thread's memory by a page or two, each time with a call to the system during which no
// thread gets a page. One large piece, taken and given back, grows it at once.
void grow_memory() {
  constexpr std::size_t piece = std::size_t{12} << 20;
  void* volatile taken = ::operator new(piece);
  ::operator delete(taken);
}

// One thread less than there are hands, or as many as are to be had.
std::vector<std::jthread> started(std::size_t hands, const std::function<void()>& task) {
  std::vector<std::jthread> threads;
  while (threads.size() + 1 < hands) {
    try {
      threads.emplace_back([task] {
        grow_memory();
        task();
      });
    } catch (const std::system_error&) {
      return threads;
    }
  }
  return threads;
}

}  // namespace

void share_work(std::size_t pieces, const std::function<void(const NextIndex&)>& work) {
  std::atomic<std::size_t> taken{0};
  std::mutex guard;
  std::exception_ptr thrown;
  const NextIndex next = [&]() -> std::optional<std::size_t> {
    const std::size_t index = taken++;
    return index < pieces ? std::optional(index) : std::nullopt;
  };
  const auto take_part = [&] {
    try {
      work(next);
    } catch (...) {
      const std::lock_guard lock(guard);
      if (!thrown) thrown = std::current_exception();
    }
  };
  const std::size_t hands = std::min<std::size_t>(pieces, std::max(std::thread::hardware_concurrency(), 1U));
  {
    const std::vector<std::jthread> others = started(hands, take_part);
    if (hands > 0) take_part();
  }
  if (thrown) std::rethrow_exception(thrown);
}

}  // namespace lensward
