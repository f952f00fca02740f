# Makes data files part of the program: writes a C++ file that holds them as string literals.
#   cmake -DFOLDER=<where they lie, for the first line> -DFILES=<list of paths> -DOUTPUT=<path>
#         -DHEADER=<what declares the row and the list> -DNAMESPACE=<of both> -DROW=<{name, text}> -DLIST=<function>
#         -P embed.cmake
set(text "// Generated from ${FOLDER}.\n#include \"${HEADER}\"\n\n")
string(APPEND text "namespace ${NAMESPACE} {\n\n")
string(APPEND text "const std::vector<${ROW}>& ${LIST}() {\n")
string(APPEND text "    static const std::vector<${ROW}> all{\n")
foreach(path IN LISTS FILES)
    get_filename_component(id ${path} NAME_WE)
    file(READ ${path} content)
    string(APPEND text "        {\"${id}\", R\"toml(${content})toml\"},\n")
endforeach()
string(APPEND text "    };\n    return all;\n}\n\n}  // namespace ${NAMESPACE}\n")
file(WRITE ${OUTPUT} "${text}")
