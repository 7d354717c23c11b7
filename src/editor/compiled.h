// What the stages made of one open file, as the editor needs it.
#pragma once

#include <cstdint>
#include <memory>
#include <string>

#include "findings/finding.h"
#include "plan/plan.h"
#include "source/source_file.h"
#include "syntax/gather.h"

namespace lensward {

class Compiled {
 public:
  virtual ~Compiled() = default;

  virtual const SourceSet& sources() const = 0;
  virtual const Gathered& gathered() const = 0;
  // As `check` prints them, in its order.
  virtual const Findings& findings() const = 0;
  virtual const Plan& plan() const = 0;
  // The open file, index into sources; -1 when it could not be read.
  virtual std::int32_t own() const = 0;
  // Why it could not be read; else empty.
  virtual const std::string& trouble() const = 0;
  // What `explain FILE:LINE` says of a line, counted from 1. Requires a line of the open file.
  virtual std::string told_of(int line) const = 0;
};

using CompiledFile = std::shared_ptr<const Compiled>;

}  // namespace lensward
