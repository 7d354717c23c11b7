// A file that is open, read with all that it shares its names with.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "findings/finding.h"
#include "source/host.h"
#include "source/source_file.h"
#include "syntax/gather.h"
#include "syntax/mentions.h"

namespace lensward {

struct ReadFiles {
  SourceSet sources;
  Gathered gathered;
  Findings findings;
  int own = 0;  // the open file, index into gathered.files

  const GatheredFile& file(int index) const { return gathered.files[static_cast<std::size_t>(index)]; }
  const Tree& tree() const { return file(own).tree; }
  std::string_view text() const { return sources.file(tree().file).bytes(); }
  // Of the gathered file with that index.
  std::vector<Mention> mentions(int index) const { return mentions_in(sources, file(index).tree); }
  // The gathered file that a span is of.
  int file_of(Span span) const;
};

// Reads the file, what it uses, its film and every scene of that. Nothing when the file cannot be read.
std::optional<ReadFiles> read_files(Host& host, const std::string& path);

}  // namespace lensward
