// Work that falls into independent pieces, shared out among the cores of the machine.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>

namespace lensward {

// The next piece that nobody has taken yet; nothing: all are taken.
using NextIndex = std::function<std::optional<std::size_t>()>;

// Calls `work` on as many threads as there are cores, but no more than pieces; the calling thread is one of them. Each
// call takes pieces 0..pieces-1 until there are none. Which thread takes which piece differs from run to run, so no
// result may depend on it. Returns when all calls have; throws what the first of them threw. A machine that gives no
// threads has the work done on one.
void share_work(std::size_t pieces, const std::function<void(const NextIndex&)>& work);

}  // namespace lensward
