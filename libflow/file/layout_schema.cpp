// SPDX-License-Identifier: MIT
#include <libflow/file/layout_schema.hpp>

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <libflow/file/layout_keys.hpp>
#include <libflow/file/results_json.hpp>

namespace libflow {

namespace schema_detail {

/// What one key takes, read from its words in the vocabulary. A quantity is text with its unit.
static Json value_schema(const LayoutKey& key) {
  const std::string_view takes = key.takes;
  if (takes == "table") return {{"$ref", fmt::format("#/$defs/{}", key.name)}};
  if (takes == "tables") {
    return {{"type", "array"}, {"items", {{"$ref", fmt::format("#/$defs/{}", key.name)}}}, {"minItems", 1}};
  }
  if (takes == "count") return {{"type", "integer"}};
  if (takes == "number") return {{"type", "number"}};
  if (takes == "true | false") return {{"type", "boolean"}};
  if (takes.find(" | ") != std::string_view::npos) {
    Json words = Json::array();
    for (std::size_t at = 0; at <= takes.size();) {
      const std::size_t end = std::min(takes.find(" | ", at), takes.size());
      words.push_back(std::string(takes.substr(at, end - at)));
      at = end + 3;
    }
    return {{"enum", std::move(words)}};
  }
  if (takes.find("list of numbers") != std::string_view::npos) {
    return {{"type", "array"}, {"items", {{"type", "number"}}}};
  }
  const bool either = takes.find(", or list of") != std::string_view::npos;
  if (takes.starts_with("list of") || either) {
    const bool pairs = takes.find('[') != std::string_view::npos;
    Json item = {{"type", "string"}};
    if (pairs) item = {{"type", "array"}, {"items", {{"type", "string"}}}, {"minItems", 2}, {"maxItems", 2}};
    Json list = {{"type", "array"}, {"items", std::move(item)}};
    return either ? Json{{"anyOf", {Json{{"type", "string"}}, std::move(list)}}} : list;
  }
  return {{"type", "string"}};
}

static Json table_schema(const LayoutTable& table) {
  Json properties = Json::object();
  for (const LayoutKey& key : table.keys) {
    Json value = value_schema(key);
    value["description"] = fmt::format("{} ({})", key.meaning, key.takes);
    properties[std::string(key.name)] = std::move(value);
  }
  return {{"type", "object"},
          {"description", std::string(table.meaning)},
          {"properties", std::move(properties)},
          {"additionalProperties", false}};
}

}  // namespace schema_detail

Json layout_schema() {
  using namespace schema_detail;
  Json schema;
  schema["$schema"] = "https://json-schema.org/draft/2020-12/schema";
  schema["title"] = "libflow layout";
  Json defs = Json::object();
  for (const LayoutTable& table : layout_vocabulary()) {
    if (table.name.empty()) {
      const Json top = table_schema(table);
      for (const auto& entry : top.items()) schema[entry.key()] = entry.value();
    } else {
      defs[std::string(table.name)] = table_schema(table);
    }
  }
  schema["$defs"] = std::move(defs);
  return schema;
}

}  // namespace libflow
