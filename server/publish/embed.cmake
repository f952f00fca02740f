# Writes the style and the script of the pages as one C++ file.
#   cmake -DFOLDER=<where they lie> -DOUTPUT=<file> -P embed.cmake
set(rows "")
function(add_asset name type)
    file(READ ${FOLDER}/${name} content)
    set(rows "${rows}        {\"${name}\", \"${type}\", R\"asset(${content})asset\"},\n" PARENT_SCOPE)
endfunction()
add_asset(page.css "text/css; charset=utf-8")
add_asset(page.js "text/javascript; charset=utf-8")
file(WRITE ${OUTPUT} "// Generated from server/publish/assets.
#include \"server/publish/assets.h\"

namespace courthand::server::publish {

const std::vector<Asset>& assets() {
    static const std::vector<Asset> all{
${rows}    };
    return all;
}

}  // namespace courthand::server::publish
")
