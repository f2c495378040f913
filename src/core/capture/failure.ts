/** Why no live camera can be had. */
export type CameraFailure = 'insecure' | 'unsupported' | 'no-camera' | 'denied' | 'busy';
