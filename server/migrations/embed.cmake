# Writes the migrations as one C++ file: cmake -DFILES=<list> -DOUTPUT=<file> -P embed.cmake
set(rows "")
foreach(file IN LISTS FILES)
    get_filename_component(name ${file} NAME_WE)
    string(REGEX MATCH "^([0-9]+)_(.+)$" matched ${name})
    if(NOT matched)
        message(FATAL_ERROR "${file}: a migration is called NNNN_name.sql")
    endif()
    math(EXPR number "1${CMAKE_MATCH_1} - 10000")
    file(READ ${file} sql)
    string(APPEND rows "    {${number}, \"${CMAKE_MATCH_2}\", R\"SQLTEXT(${sql})SQLTEXT\"},\n")
endforeach()
file(WRITE ${OUTPUT} "// Generated from server/migrations.
#include \"server/store/postgres/migrations.h\"

namespace courthand::server::postgres {
namespace {
constexpr Migration all[] = {
${rows}};
}  // namespace
std::span<const Migration> migrations() noexcept { return all; }
}  // namespace courthand::server::postgres
")
