// Whether WebGL runs in software: then antialiasing costs more than it gives.

export function isSoftwareRendered(): boolean {
  const context = document.createElement("canvas").getContext("webgl2");
  if (!context) return false;
  const names = context.getExtension("WEBGL_debug_renderer_info");
  const name = String(context.getParameter(names ? names.UNMASKED_RENDERER_WEBGL : context.RENDERER));
  context.getExtension("WEBGL_lose_context")?.loseContext();
  return /swiftshader|llvmpipe|software|basic render/i.test(name);
}
