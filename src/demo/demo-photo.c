#include "demo/demo-private.h"

/* A small picture of a bearing with a brown spot on its seal, drawn for this
 * purpose: 64 × 64, baseline JPEG, in base 64. */
static const char picture[] =
    "/9j/4AAQSkZJRgABAQAAAQABAAD/2wBDABQODxIPDRQSEBIXFRQYHjIhHhwcHj0sLiQySUBMS0dARkVQWnNiUFVt"
    "VkVGZIhlbXd7gYKBTmCNl4x9lnN+gXz/2wBDARUXFx4aHjshITt8U0ZTfHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8"
    "fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHx8fHz/wAARCABAAEADASIAAhEBAxEB/8QAHwAAAQUBAQEBAQEAAAAAAAAA"
    "AAECAwQFBgcICQoL/8QAtRAAAgEDAwIEAwUFBAQAAAF9AQIDAAQRBRIhMUEGE1FhByJxFDKBkaEII0KxwRVS0fAk"
    "M2JyggkKFhcYGRolJicoKSo0NTY3ODk6Q0RFRkdISUpTVFVWV1hZWmNkZWZnaGlqc3R1dnd4eXqDhIWGh4iJipKT"
    "lJWWl5iZmqKjpKWmp6ipqrKztLW2t7i5usLDxMXGx8jJytLT1NXW19jZ2uHi4+Tl5ufo6erx8vP09fb3+Pn6/8QA"
    "HwEAAwEBAQEBAQEBAQAAAAAAAAECAwQFBgcICQoL/8QAtREAAgECBAQDBAcFBAQAAQJ3AAECAxEEBSExBhJBUQdh"
    "cRMiMoEIFEKRobHBCSMzUvAVYnLRChYkNOEl8RcYGRomJygpKjU2Nzg5OkNERUZHSElKU1RVVldYWVpjZGVmZ2hp"
    "anN0dXZ3eHl6goOEhYaHiImKkpOUlZaXmJmaoqOkpaanqKmqsrO0tba3uLm6wsPExcbHyMnK0tPU1dbX2Nna4uPk"
    "5ebn6Onq8vP09fb3+Pn6/9oADAMBAAIRAxEAPwDfpCQoJJAA5JNBIUEkgAckmsO8u2uX7iMdF/qaALs2qopxCpf/"
    "AGjwKqPqVyxyGVPYL/jUUVs8nJ+VfU1Tldor8ROwEYcA/Q+v4UAaKalcqcllf2K/4Vbh1VGOJlKf7Q5FVp4YI4md"
    "gVCjJwf8azY5w65IK0XsB1QIYAggg8gilrBsrw27cfNGfvL/AFFboIYAggg8gigChq022JYgR8/J+g/z+lZXkyzI"
    "4hxuA7nFWtTcteMDj5QAP5/1qGG/ggPlPvBzktjIoAr6fcy28vkSIxXrgjlf/rVPcRx3Mu+ReQMAZqWSdZ8NGcp2"
    "Na9tbrAgAA345agDEuC88LRl8A47VRrqbm3WdCCBvxw1YD2xlb90QHPr0qJxbLjJIgi+8fpW5pM26JoiR8nI+h/z"
    "+tZf2B4V81pQSBgqF4/PNWdMcreKBj5gQf5/0pxVkKTuw1NCt4xOPmAI/l/SoYbCCc+a+8nOCucCtHVod0SygD5O"
    "D9D/AJ/WsrzpYUcw43EdxmqJLEkCwYWMYTsK17a4WdAQRvxytc5p9tLcS+fI7BemSeW/+tU9xJHbS7JG5IyDigDc"
    "ubhYEJJG/HC1gzTvbp5kabiD3BwPrT7gPBC0hTIGO9TafcpcQ4A2uv3h/WgCquom5UxGIA4yW3f0q1piFrxSMfKC"
    "T/L+tVZEiWVvJQKD1wetaukw7YmlIHz8D6D/AD+lAF8gMCCAQeCDWHeWjWz9zGejf0NbtIQGBBAIPBBoAwIrl4+D"
    "8y+hqnKjS34ldQYy4J+g9fwrcm0pGOYWKf7J5FVH025U4Cq/uG/xoAdPNBJEyMSwYYOB/jWbBCIckMdxGCenFaCa"
    "bcscFVT3Lf4Vbh0pFOZmL/7I4FAFKztGuX7iMdW/oK3AAoAAAA4AFAAUAAAAcACloA//2Q==";

GBytes *
demo_photo (void)
{
  gsize size;
  guchar *jpeg = g_base64_decode (picture, &size);

  return g_bytes_new_take (jpeg, size);
}
