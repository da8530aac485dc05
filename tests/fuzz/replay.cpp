// SPDX-License-Identifier: MIT
/// @file
/// Gives a fuzz target every file of some folders once: what fuzzing found stays found, with any compiler.
/// Usage: <target>_replay FOLDER|FILE...
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include <tests/fuzz/target.hpp>

namespace fs = std::filesystem;

static int replay(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  const std::vector<char> bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  std::fprintf(stderr, "%s\n", path.c_str());  // the last one named is the one that ended the program
  return LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
}

int main(int argc, char** argv) {
  int files = 0;
  for (int i = 1; i < argc; ++i) {
    if (fs::is_directory(argv[i])) {
      for (const fs::directory_entry& entry : fs::directory_iterator(argv[i])) {
        if (entry.is_regular_file()) files += replay(entry.path()) == 0 ? 1 : 0;
      }
    } else if (fs::is_regular_file(argv[i])) {
      files += replay(argv[i]) == 0 ? 1 : 0;
    }
  }
  std::printf("%d inputs\n", files);
  return files > 0 ? 0 : 1;
}
