# The font files built into the binary, found here and handed to fonts.S.
set(font_names SANS SANS_BOLD SANS_ITALIC SERIF SERIF_ITALIC SERIF_BOLD)
set(font_files LinBiolinum_R.otf LinBiolinum_RB.otf LinBiolinum_RI.otf LinLibertine_R.otf LinLibertine_RI.otf
    LinLibertine_RB.otf)
set(font_definitions "")
set(font_paths "")
foreach(name file IN ZIP_LISTS font_names font_files)
  find_file(LENSWARD_FONT_${name} ${file}
            HINTS /usr/share/fonts/opentype/linux-libertine /usr/share/fonts/linux-libertine
                  /usr/local/share/fonts/linux-libertine /usr/share/fonts/linux-libertine-fonts)
  if(NOT LENSWARD_FONT_${name})
    message(FATAL_ERROR "font file ${file} not found: install fonts-linuxlibertine (Debian), "
                        "or give its path with -DLENSWARD_FONT_${name}=/path/to/${file}")
  endif()
  list(APPEND font_definitions "FONT_${name}=\"${LENSWARD_FONT_${name}}\"")
  list(APPEND font_paths ${LENSWARD_FONT_${name}})
endforeach()
# The properties belong to the file, so they are set where the library that compiles it is made.
set_source_files_properties(${CMAKE_SOURCE_DIR}/src/type/fonts.S PROPERTIES COMPILE_DEFINITIONS "${font_definitions}"
                                                                            OBJECT_DEPENDS "${font_paths}")
