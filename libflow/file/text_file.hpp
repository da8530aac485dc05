// SPDX-License-Identifier: MIT
/// @file
/// Text files in and out: a file is read only if it is sane text, and written whole or not at all.
#pragma once

#include <cstddef>
#include <cstring>
#include <filesystem>
#include <string>
#include <string_view>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

namespace libflow {

/// No layout is larger; a longer file is refused unread.
inline constexpr std::size_t largest_text_file = 4u << 20;  // bytes

/// Deepest nesting of brackets and most dots between keys in one line. Layouts need two; the limit keeps a hostile
/// file from exhausting the stack of the TOML parser.
inline constexpr std::size_t deepest_brackets = 16;
inline constexpr std::size_t most_dots = 32;  ///< of one name

/// "file.toml", or "file.toml:12:9".
[[nodiscard]] std::string file_place(std::string_view file, std::size_t line, std::size_t column);

/// What a text file holds, for the checks that go with it and for messages.
enum class TextKind { layout, cups };

/// "a layout file", "a file of cups (lines 'row, volume')".
[[nodiscard]] std::string_view words_of(TextKind kind);

/// Throws InputError unless `text` is UTF-8 text without control characters, not empty and not larger than
/// largest_text_file; a layout must also have its quotes closed on their line and be shallow enough for any TOML
/// parser.
/// @param file  its name, for the message
void check_text(std::string_view text, std::string_view file, TextKind kind = TextKind::layout);

/// Reads a file, at most largest_text_file bytes.
/// @throws InputError  missing, a folder, unreadable, too large
[[nodiscard]] std::string read_text_file(const std::filesystem::path& path, TextKind kind = TextKind::layout);

/// What to do when the file to write exists already.
enum class Existing { refuse, replace };

/// Writes a file whole or not at all: into a new file beside it, which then takes its name in one step.
/// @throws InputError  the folder is missing or not writable, the disk is full, or the file exists and must be kept
void write_text_file(const std::filesystem::path& path, std::string_view text, Existing existing);

}  // namespace libflow
