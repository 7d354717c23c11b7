#include "editor/read_files.h"

namespace lensward {

int ReadFiles::file_of(Span span) const {
  for (std::size_t i = 0; i < gathered.files.size(); ++i) {
    if (gathered.files[i].tree.file == span.file) return static_cast<int>(i);
  }
  return -1;
}

std::optional<ReadFiles> read_files(Host& host, const std::string& path) {
  ReadFiles read;
  const auto own = gather(host, path, read.sources, read.gathered, read.findings);
  if (!std::holds_alternative<int>(own)) return std::nullopt;
  read.own = std::get<int>(own);
  const int film = read.file(read.own).film;
  // The film is known by now; asked for by itself, it brings in all its scenes.
  if (film >= 0 && film != read.own) {
    const std::string name = read.sources.file(read.file(film).tree.file).name();
    gather(host, name, read.sources, read.gathered, read.findings);
  }
  return read;
}

}  // namespace lensward
