// Values as the Language Server Protocol 3.17 writes them.
#pragma once

#include <cstdint>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "editor/positions.h"

namespace lensward {

using JsonValue = nlohmann::json;

// Error codes of JSON-RPC 2.0 and of the protocol.
enum class Fault {
  parse_error = -32700,
  invalid_request = -32600,
  method_not_found = -32601,
  invalid_params = -32602,
  not_initialized = -32002,
  request_failed = -32803,
  content_modified = -32801,
  request_cancelled = -32800,
};

// "file:///a%20b" for "/a b" (RFC 3986).
std::string uri_of(const std::string& path);
// Nothing for a document that is no file of this machine.
std::optional<std::string> path_of(const std::string& uri);

JsonValue to_json(Caret caret);
JsonValue to_json(const CaretRange& range);
// These throw JsonValue::exception when it is no such thing.
Caret caret_of(const JsonValue& json);
CaretRange range_of(const JsonValue& json);

JsonValue answer_to(const JsonValue& id, JsonValue result);
JsonValue refusal_of(const JsonValue& id, Fault fault, const std::string& words);
JsonValue notice(const std::string& method, JsonValue params);

// What JSON cannot hold, made so that it can: halves of surrogate pairs become U+FFFD, one unit for one unit, and bytes
// that are not UTF-8 U+001A, one byte for one byte, so that all positions stay as the editor counts them.
std::string with_bad_characters_replaced(std::string_view message);

}  // namespace lensward
