# Writes a C++ file that holds the chain files as string literals.
# Called with -DFILES=<list of paths> -DOUTPUT=<path>.
set(text "// Generated from shared-core/standings/chains.\n#include \"standings/embedded_chains.h\"\n\n")
string(APPEND text "namespace courthand::standings {\n\n")
string(APPEND text "const std::vector<EmbeddedChain>& embedded_chains() {\n")
string(APPEND text "    static const std::vector<EmbeddedChain> all{\n")
foreach(path IN LISTS FILES)
    get_filename_component(id ${path} NAME_WE)
    file(READ ${path} content)
    string(APPEND text "        {\"${id}\", R\"toml(${content})toml\"},\n")
endforeach()
string(APPEND text "    };\n    return all;\n}\n\n}  // namespace courthand::standings\n")
file(WRITE ${OUTPUT} "${text}")
