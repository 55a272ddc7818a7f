import { soak } from './soak.ts';

// `npm run soak`: 25 rounds of 200 keys, or as many as are asked for.
const [rounds = '25', keys = '200'] = process.argv.slice(2);
await soak(Number(rounds), Number(keys), console.log);
