// What the program is asked to do besides changing the item, and what it says where that cannot be.
import { capital } from "./app.js";

const JSON_TYPE = { "Content-Type": "application/json" };

export const send = async (where, body) => {
  try {
    const answer = await fetch(where, { method: "POST", headers: JSON_TYPE, body: JSON.stringify(body) });
    const isJson = (answer.headers.get("Content-Type") ?? "").includes("json");
    return isJson ? await answer.json() : { done: false, message: await answer.text(), fix: "" };
  } catch {
    return { done: false, message: "the program does not answer", fix: "look whether it is still running" };
  }
};

export const refusal = (told) => `${capital(told.message ?? "it cannot be done")}.${told.fix ? ` ${capital(told.fix)}.` : ""}`;
