// The page's files, byte for byte, between two symbols each.
#define PAGE_FILE(name, path)           \
  .global lensward_page_##name##_begin; \
  .global lensward_page_##name##_end;   \
  .balign 16;                           \
  lensward_page_##name##_begin:         \
  .incbin path;                         \
  lensward_page_##name##_end:           \
  .byte 0

.section .rodata, "a"
PAGE_FILE(html, PAGE_HTML)
PAGE_FILE(style, PAGE_STYLE)
PAGE_FILE(script, PAGE_SCRIPT)
PAGE_FILE(preview_style, PAGE_PREVIEW_STYLE)
PAGE_FILE(preview_script, PAGE_PREVIEW_SCRIPT)

#if defined(__linux__) && defined(__ELF__)
.section .note.GNU-stack, "", %progbits
#endif
